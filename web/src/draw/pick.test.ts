import { expect, it } from "vitest";
import { nearestPoint } from "./pick.ts";

const points = [
  { name: "a", at_mm: [10, 10] as const },
  { name: "b", at_mm: [14, 10] as const },
  { name: "b again", at_mm: [14, 10] as const },
];

it("picks the nearest point within reach", () => {
  expect(nearestPoint(points, { x: 11, y: 10 }, 5)?.name).toBe("a");
});

it("picks the upper one of two that lie on each other", () => {
  expect(nearestPoint(points, { x: 13.5, y: 10 }, 5)?.name).toBe("b again");
});

it("picks nothing out of reach", () => {
  expect(nearestPoint(points, { x: 30, y: 10 }, 5)).toBeUndefined();
});
