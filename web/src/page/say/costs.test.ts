import { describe, expect, it } from "vitest";
import type { CheckAnswer } from "../../engine.ts";
import { buildCost, jointCost, leanCost, looseCost, slideCost, tiltCost } from "./costs.ts";

function place(value: number) {
  const where = {
    height_mm: 0,
    rear_height_mm: 0,
    travel_mm: 0,
    travel_left_mm: 0,
    travel_right_mm: 0,
    lean_deg: 0,
    steer_by: "straight_ahead",
  } as const;
  return { value, where, place_text: "at height 0 mm" };
}

function swept(truck: string, slides: readonly (readonly [number, number])[], per_mm?: number) {
  const influence = { name: "p", coordinate: "z", on: "axle", text: "p, 1 mm up" } as const;
  return {
    truck,
    extremes: slides.map(([low, high], i) => ({
      name: `slide.bar_${i}_mm`,
      lowest: place(low),
      highest: place(high),
    })),
    ...(per_mm === undefined
      ? {}
      : {
          points_that_matter: {
            quantity: "steering_wheel_off_centre_deg",
            words: "",
            unit: "deg",
            design_moves: [],
            build_errors: [{ ...influence, per_mm }],
            where: place(0).where,
            place_text: "",
          },
        }),
  };
}

function checked(truck: string, joints: number, loose: CheckAnswer["loose"] = []): CheckAnswer {
  return {
    ask: "check",
    version: 1,
    truck,
    file: "",
    units: "mm",
    warnings: [],
    story: [],
    cautions: [],
    counts: { bodies: 0, joints, coordinates: 0, equations: 0, inputs: 0, mobility: 0 },
    soundness: "sound",
    message: "",
    loose,
    set_aside: [],
    fighting: [],
    fights: [],
    misfits: [],
  };
}

const names = ["P", "G"] as const;

function comparison(name: string, worst: readonly (number | null)[]) {
  const row = {
    name,
    words: "",
    unit: "deg",
    positive: "",
    negative: "",
    worst,
    best: [],
    text: "",
  };
  return { comparison: [row] };
}

describe("what a folding bar costs", () => {
  it("is a slide only where something slides", () => {
    expect(slideCost(swept("P", []), "mm")).toBeUndefined();
    expect(
      slideCost(
        swept("G", [
          [-147, 9],
          [-154, 9],
        ]),
        "mm",
      )?.text,
    ).toMatch(/^Ends slide on a guide, by up to 156 mm and 163 mm over/);
    expect(slideCost(swept("G", [[-147, 9]]), "inch")?.text).toMatch(
      /^One end slides on a guide, by up to 6\.1 in/,
    );
  });

  it("is no slide where the end sits on a rocker", () => {
    const onGuide = swept("G", [[-147, 9]]);
    const turn = { name: "turn.bar_0_rocker_deg", lowest: place(-10), highest: place(11) };
    const onRocker = { ...onGuide, extremes: [...onGuide.extremes, turn] };
    expect(slideCost(onRocker, "mm")).toBeUndefined();
  });

  it("is more joints only where there are more", () => {
    expect(jointCost(checked("G", 16), checked("P", 10))?.text).toMatch(
      /“G” has 16 joints, “P” 10/,
    );
    expect(jointCost(checked("G", 10), checked("P", 10))).toBeUndefined();
  });

  it("is exact work, told for what the reader can measure", () => {
    const [guided, plain] = [swept("G", [], 5.05), swept("P", [], -4.69)];
    expect(buildCost(guided, plain, "mm")?.text).toBe(
      "One millimetre off at the touchiest place turns the steering wheel of “G” by up to 5 degrees. With “P” it would be 4.7 degrees.",
    );
    expect(buildCost(guided, plain, "inch")?.text).toMatch(
      /^A tenth of an inch .* 13 degrees\. .* 12 degrees\.$/,
    );
    expect(buildCost(swept("G", []), plain, "mm")).toBeUndefined();
  });

  it("tells both trucks of joints and leans, and nothing where a number is lacking", () => {
    const pair = { names, worst: [0, 0], alike: false } as const;
    expect(tiltCost(comparison("tilt_deg", [44.8, 53]), pair)?.text).toMatch(
      /53 degrees in “G” and 45 degrees in “P”/,
    );
    expect(tiltCost(comparison("tilt_deg", [null, 53]), pair)).toBeUndefined();
    expect(leanCost(comparison("lean_steer_deg_per_deg", [-0.33, -0.08]), pair)?.text).toMatch(
      /“G” by up to 0\.08 degrees, and “P” by up to 0\.33 degrees/,
    );
  });

  it("names what is loose, and does not call an idle bar that", () => {
    const motion = { name: "", spin: true, free_deg: null, effects: [] };
    const idle = { ...motion, idle: true, text: "bar: turns about its own line" };
    const play = { ...motion, idle: false, text: "tie rod: turns about its own line" };
    expect(looseCost(checked("G", 1, [idle, play])).text).toMatch(/this is loose: tie rod: turns/);
    expect(looseCost(checked("G", 1, [idle])).text).toMatch(
      /one bar can turn about its own line, which moves nothing else/,
    );
    expect(looseCost(checked("G", 1)).text).toMatch(/nothing can move by itself/);
  });
});
