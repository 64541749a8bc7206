import { expect, it } from "vitest";
import { eased, nextStep, placeAfter, timeOf } from "./play.ts";

it("goes up, comes down, and goes up again", () => {
  expect(placeAfter(0)).toBe(0);
  expect(placeAfter(2100)).toBeCloseTo(0.5, 12);
  expect(placeAfter(4200)).toBe(1);
  expect(placeAfter(6300)).toBeCloseTo(0.5, 12);
  expect(placeAfter(8400)).toBe(0);
  expect(placeAfter(10_500)).toBeCloseTo(0.5, 12);
});

it("starts and stops gently", () => {
  expect(eased(0.01)).toBeLessThan(0.001);
  expect(1 - eased(0.99)).toBeLessThan(0.001);
});

it("starts from where the slider stands", () => {
  for (const share of [0, 0.2, 0.5, 0.9, 1]) {
    expect(placeAfter(timeOf(share))).toBeCloseTo(share, 9);
  }
});

it("steps through the range and begins again", () => {
  expect([0, 0.25, 0.3, 0.75, 1].map(nextStep)).toEqual([0.25, 0.5, 0.5, 1, 0]);
});
