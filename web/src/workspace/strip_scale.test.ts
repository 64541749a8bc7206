import { describe, expect, it } from "vitest";
import {
  curveData,
  nearBounds,
  refusedRuns,
  scale,
  spanOf,
  tickStep,
  ticks,
} from "./strip_scale.ts";

describe("the span of a strip", () => {
  it("holds every value and a margin", () => {
    const span = spanOf(
      [
        [0, 50],
        [-10, null],
      ],
      [],
      1,
    );
    expect(span.least).toBeLessThan(-10);
    expect(span.most).toBeGreaterThan(50);
  });

  it("is never so narrow that rounding looks like a curve", () => {
    const span = spanOf([[1e-13, -1e-13]], [], 1);
    expect(span.most - span.least).toBeGreaterThanOrEqual(1);
    expect(span.least).toBeLessThan(0);
    expect(span.most).toBeGreaterThan(0);
  });

  it("without a value is there all the same", () => {
    expect(spanOf([[null, null]], [], 2)).toEqual({ least: -1, most: 1 });
  });

  it("takes in a bound that is near, and leaves a far one out", () => {
    expect(nearBounds([0, 10], [-8, 15], 1)).toEqual([-8, 15]);
    expect(nearBounds([0, 10], [-100, 15, null], 1)).toEqual([15]);
  });
});

it("height runs up where pixels run down", () => {
  const y = scale({ least: 0, most: 235 }, 400, 0);
  expect(y(0)).toBe(400);
  expect(y(235)).toBe(0);
});

it("a curve has a gap where a height has no value", () => {
  const same = (value: number) => value;
  expect(curveData([1, null, 3, 4], [0, 1, 2, 3], same, same)).toBe("M1.0 0.0M3.0 2.0L4.0 3.0");
});

describe("ticks", () => {
  it.each([
    [235, 5, 50],
    [9.25, 5, 2],
    [1, 4, 0.5],
    [0.09, 3, 0.05],
  ])("over %f in %f steps are %f apart", (span, count, step) => {
    expect(tickStep(span, count)).toBeCloseTo(step, 12);
  });

  it("lie on multiples, the ends among them", () => {
    expect(ticks({ least: 0, most: 100 }, 50)).toEqual([0, 50, 100]);
    expect(ticks({ least: -12, most: 12 }, 10)).toEqual([-10, 0, 10]);
  });
});

it("heights that cannot be had are told in runs, each with its reason", () => {
  const runs = refusedRuns(
    [0, 10, 20, 30, 40],
    [
      { height_mm: 0, text: "low" },
      { height_mm: 30, text: "drag link runs straight" },
      { height_mm: 40, text: "drag link runs straight" },
    ],
  );
  expect(runs).toEqual([
    { from_mm: 0, to_mm: 0, text: "low" },
    { from_mm: 30, to_mm: 40, text: "drag link runs straight" },
  ]);
});
