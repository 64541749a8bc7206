import { describe, expect, it } from "vitest";
import { arcsAgree, axleMoved, bumped, folded, held, loosened, rolling } from "./story.ts";

describe("one truck's picture in words", () => {
  it("says that the axle moved only where it did", () => {
    expect(axleMoved(235, 61.26, "mm")).toBe(
      "Raised by 235 mm: the axle has moved 61 mm to the left.",
    );
    expect(axleMoved(235, 0.2, "mm")).toBe("Raised by 235 mm: the axle is in the middle.");
    expect(axleMoved(0, 0, "mm")).toBe(
      "At the height where it was set up: the axle is in the middle.",
    );
    expect(axleMoved(-25.4, -12.7, "inch")).toBe(
      "Lowered by 1 in: the axle has moved 0.5 in to the right.",
    );
  });

  it("tells wheel and axle apart", () => {
    expect(rolling(235, 0.2, 52.3, "mm")).toBe(
      "Raised by 235 mm, going straight: the axle has moved 52 mm to the left, and still the steering wheel is centred.",
    );
    expect(rolling(235, 53.7, 61.3, "mm")).toMatch(
      /and the steering wheel stands 54 degrees to the left/,
    );
    expect(rolling(235, 53.7, 0, "mm")).toMatch(
      /the axle is in the middle, and the steering wheel stands 54/,
    );
    expect(rolling(235, 0, 0, "mm")).not.toMatch(/still/);
  });

  it("says that a truck steers itself only where it does", () => {
    expect(held(235, -3.34, "mm")).toMatch(
      /3\.3 degrees to the right\. The truck steers itself\.$/,
    );
    expect(held(235, 0.01, "mm")).toMatch(/straight ahead\.$/);
    expect(bumped(-3.34, -2.34, "a bump of 25 mm")).toBe(
      "Hold the wheel still: a bump of 25 mm turns the road wheels 1 degree to the left.",
    );
    expect(bumped(0, 0.01, "a bump of 25 mm")).toMatch(/does not steer/);
  });

  it("claims no straight line of a bar that does not run straight", () => {
    expect(folded(235, 0, 0, "mm")).toMatch(/in the middle and the steering wheel is centred\.$/);
    expect(folded(235, 12, 3, "mm")).toMatch(
      /the axle is 3 mm to the left, the steering wheel 12 degrees to the left\.$/,
    );
  });

  it("tells how well two bars agree", () => {
    expect(arcsAgree(4.17, 52.3, "mm")).toBe(
      "These agree nearly. From bottom to top the steering wheel turns by no more than 4.2 degrees, but the axle still moves, by up to 52 mm.",
    );
    expect(arcsAgree(0.1, 0, "mm")).toBe(
      "From bottom to top the steering wheel stays centred, and the axle stays too.",
    );
    expect(arcsAgree(null, 3, "mm")).not.toMatch(/\d/);
  });
});

describe("a loose part", () => {
  const effect = { words: "", per_deg: 1, range: null, text: "", place_text: "" };
  const where = {
    height_mm: 0,
    rear_height_mm: 0,
    travel_mm: 0,
    travel_left_mm: 0,
    travel_right_mm: 0,
    lean_deg: 0,
    steer_by: "held",
  } as const;

  it("is called play only where steering or axle move with it", () => {
    const slide = { effects: [{ ...effect, where, name: "slide.guided_steering_mm" }] };
    const wheel = { effects: [{ ...effect, where, name: "steering_wheel_off_centre_deg" }] };
    expect(loosened(25, slide)).toMatch(
      /25 degrees, and nothing holds it\. Steering wheel and axle do not/,
    );
    expect(loosened(25, wheel)).toMatch(/that is play/);
    expect(loosened(0, slide)).toMatch(/^Upright/);
  });
});
