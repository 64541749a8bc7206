import { describe, expect, it } from "vitest";
import { dragSettings, paperStep, settingLength } from "./drag.ts";

// Front view at 1 to 10: the truck's left is to the right of the paper, up is up.
const point = {
  sets: "track_bar_axle",
  measured_mm: [-90, -430, 540] as const,
  across: [0, 10, 0] as const,
  up: [0, 0, 10] as const,
};

describe("a drag on the paper", () => {
  it("sets the coordinates that go with the paper, with their unit", () => {
    expect([...dragSettings(point, 1, 0.5, "mm")]).toEqual([
      ["points.track_bar_axle.y", "-420.0 mm"],
      ["points.track_bar_axle.z", "545.0 mm"],
    ]);
  });

  it("leaves alone what stays, so that no rounding gets into the file", () => {
    const fine = { ...point, measured_mm: [-90, -430, 540.25] as const };
    expect([...dragSettings(fine, 1, 0, "mm").keys()]).toEqual(["points.track_bar_axle.y"]);
  });

  it("of a mirrored point moves its origin the other way across", () => {
    const mirrored = {
      ...point,
      measured_mm: [0, 875, 462] as const,
      across: [0, -10, 0] as const,
    };
    expect(dragSettings(mirrored, 1, 0, "mm").get("points.track_bar_axle.y")).toBe("865.0 mm");
  });

  it("is written in the reader's unit", () => {
    expect(dragSettings(point, 0, 1, "inch").get("points.track_bar_axle.z")).toBe("21.65 in");
  });
});

it("a length has no minus before nothing", () => {
  expect(settingLength(-0.01, "mm")).toBe("0.0 mm");
});

it("a step of a millimetre is so much paper as the scale says", () => {
  expect(paperStep(point, "across", 1)).toBeCloseTo(0.1, 12);
  expect(paperStep({ across: [0, 0, 0], up: [0, 0, 0] }, "up", 1)).toBe(0);
});
