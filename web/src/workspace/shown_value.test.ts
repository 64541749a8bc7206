import { describe, expect, it } from "vitest";
import { cellText, headText, valueText } from "./shown_value.ts";

const wheel = {
  name: "steering_wheel_off_centre_deg",
  words: "steering wheel off centre",
  unit: "deg",
  positive: "to the left",
  negative: "to the right",
};
const ratio = { unit: "to 1", positive: "", negative: "" };

describe("a value", () => {
  it("tells its sign in words", () => {
    expect(valueText(wheel, 53.71, "mm")).toBe("53.7 deg left");
    expect(valueText(wheel, -0.256, "mm")).toBe("0.26 deg right");
  });

  it("has no side at zero", () => {
    expect(cellText(wheel, -1e-12, "mm")).toBe("0.00");
  });

  it("keeps its minus where the sign has no words", () => {
    expect(valueText(ratio, -16.23, "mm")).toBe("-16.23 to 1");
  });

  it("that the pose does not have is a stroke", () => {
    expect(valueText(wheel, null, "mm")).toBe("-");
    expect(cellText(wheel, undefined, "mm")).toBe("-");
  });

  it("in inches has the rate over an inch", () => {
    const bump = { unit: "deg per 25 mm", positive: "to the left", negative: "to the right" };
    expect(valueText(bump, 1, "inch")).toBe("1.016 deg per inch left");
  });

  it("in a column has the places of its largest", () => {
    expect(cellText(wheel, 0.123, "mm", 53)).toBe("0.1 left");
  });
});

it("a head has the unit", () => {
  expect(headText(wheel, "mm")).toBe("steering wheel off centre, deg");
  expect(headText({ words: "toe", unit: "" }, "mm")).toBe("toe");
});
