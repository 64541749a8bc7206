import { describe, expect, it } from "vitest";
import { bodyShapes } from "./body.ts";
import { drawing, point } from "./sample_drawing.ts";

const wheel = point({ name: "w", sets: "w", on: "axle", measured_mm: [0, 875, 462] });

describe("the sketched body", () => {
  it("is as wide as the track and stands over the wheels", () => {
    const spots = bodyShapes(drawing([point({}), wheel])).flatMap((shape) => shape.spots);
    const across = spots.map(([x]) => x);
    expect(Math.min(...across)).toBeCloseTo(100 - 89.25, 6);
    expect(Math.max(...across)).toBeCloseTo(100 + 89.25, 6);
    const lowest = Math.min(...spots.map(([, y]) => y));
    expect(lowest).toBeGreaterThan(2 * 46.2);
  });

  it("rises as far as the frame does", () => {
    const low = bodyShapes(drawing([point({}), wheel]));
    const high = bodyShapes(drawing([point({ at_mm: [100, 83.5] }), wheel]));
    const first = (shapes: typeof low) => shapes[0]?.spots[0]?.[1] ?? Number.NaN;
    expect(first(high) - first(low)).toBeCloseTo(23.5, 9);
  });

  it("is left out where nothing says where the frame is", () => {
    expect(bodyShapes(drawing([wheel]))).toEqual([]);
  });
});
