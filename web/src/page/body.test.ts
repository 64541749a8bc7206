import { describe, expect, it } from "vitest";
import type { Drawing, DrawnPoint } from "../draw/drawing.ts";
import { bodyShapes } from "./body.ts";

/** Seen from behind at a tenth: the frame's left is on the left of the paper. */
function point(change: Partial<DrawnPoint>): DrawnPoint {
  return {
    name: "p",
    on: "frame",
    sets: "p",
    at_mm: [100, 60],
    measured_mm: [0, 0, 600],
    across: [0, -10, 0],
    up: [0, 0, 10],
    ...change,
  };
}

function drawing(points: readonly DrawnPoint[]): Drawing {
  return {
    view: "pictorial",
    words: "",
    paper_mm: [200, 150],
    scale: 0.1,
    origin_mm: [0, 0],
    layers: [],
    items: [],
    points,
  };
}

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
