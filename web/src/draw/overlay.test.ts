import { expect, it } from "vitest";
import { type Frame, overlayTransform } from "./overlay.ts";

const frame: Frame = { paper_mm: [100, 80], scale: 0.1, origin_mm: [50, 10] };

/** Where an SVG place lands by the transform. */
function moved(transform: string, x: number, y: number): [number, number] {
  const [right, down, factor] = (transform.match(/-?[\d.]+(e-?\d+)?/g) ?? []).map(Number) as [
    number,
    number,
    number,
  ];
  return [right + factor * x, down + factor * y];
}

it("the same frame needs no transform", () => {
  expect(overlayTransform(frame, { ...frame })).toBe("");
});

it("takes a place of the truck to where the other frame draws it", () => {
  const to: Frame = { paper_mm: [200, 150], scale: 0.25, origin_mm: [90, 30] };
  // 100 mm to the right of the origin and 200 mm above it, on either paper; SVG counts down.
  const from = [50 + 10, 80 - (10 + 20)] as const;
  const there = [90 + 25, 150 - (30 + 50)];
  const [x, y] = moved(overlayTransform(frame, to), ...from);
  expect(x).toBeCloseTo(there[0] as number, 9);
  expect(y).toBeCloseTo(there[1] as number, 9);
});
