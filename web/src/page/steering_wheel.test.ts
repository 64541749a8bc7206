import { expect, it } from "vitest";
import { turnedArc } from "./steering_wheel.ts";

// In SVG y runs down: the top of the wheel is at negative y, the driver's left at negative x.
function end(path: string): [number, number] {
  const [x, y] = path.split(" ").slice(-2).map(Number);
  return [x ?? Number.NaN, y ?? Number.NaN];
}

it("ends on the left for a wheel turned to the left", () => {
  const [x, y] = end(turnedArc(90));
  expect(x).toBeCloseTo(-56, 9);
  expect(y).toBeCloseTo(0, 9);
});

it("ends on the right for a wheel turned to the right", () => {
  expect(end(turnedArc(-90))[0]).toBeCloseTo(56, 9);
});

it("takes the long way round beyond half a turn, the short way below", () => {
  expect(turnedArc(200)).toContain("A56 56 0 1 0");
  expect(turnedArc(20)).toContain("A56 56 0 0 0");
  expect(turnedArc(-200)).toContain("A56 56 0 1 1");
});

it("is nothing for a centred wheel, and a whole round for more than a turn", () => {
  expect(turnedArc(0.3)).toBe("");
  expect(turnedArc(500)).toBe(turnedArc(359.9));
});
