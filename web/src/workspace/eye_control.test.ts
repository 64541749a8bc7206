import { expect, it } from "vitest";
import { turnedBy } from "./eye_control.ts";

it("the eye goes with the pointer, and stops at straight down", () => {
  const eye = { turn_deg: 35, tilt_deg: 25 };
  expect(turnedBy(eye, 10, 0)).toEqual({ turn_deg: 31, tilt_deg: 25 });
  expect(turnedBy(eye, 0, 10)).toEqual({ turn_deg: 35, tilt_deg: 29 });
  expect(turnedBy(eye, 0, 1000).tilt_deg).toBe(90);
  expect(turnedBy(eye, 0, -1000).tilt_deg).toBe(-10);
});
