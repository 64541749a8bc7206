import { expect, it } from "vitest";
import { swingAngle } from "./swing.ts";

it("swings to one end, back through the middle and to the other", () => {
  expect(swingAngle(0, 20)).toBe(0);
  expect(swingAngle(750, 20)).toBeCloseTo(20, 10);
  expect(swingAngle(1500, 20)).toBeCloseTo(0, 10);
  expect(swingAngle(2250, 20)).toBeCloseTo(-20, 10);
});
