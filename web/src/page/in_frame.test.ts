import { describe, expect, it } from "vitest";
import type { Drawing, DrawnPoint } from "../draw/drawing.ts";
import { inFrame } from "./in_frame.ts";

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

describe("places fixed in the frame", () => {
  it("are found from the paper's axes at a point of the frame", () => {
    const place = inFrame(drawing([point({})]));
    expect(place?.([0, 500, 700])).toEqual([50, 70]);
  });

  it("lean with the frame", () => {
    // Left side up by an angle whose sine is 0.6.
    const leaning = point({
      across: [0, -8, -6],
      up: [0, 6, 8].map((x, i) => (i === 1 ? -6 : x)) as never,
    });
    const [x, y] = inFrame(drawing([leaning]))?.([0, 500, 600]) ?? [];
    expect(x).toBeCloseTo(60, 9);
    expect(y).toBeCloseTo(30, 9);
  });

  it("are not taken from a mirrored point, whose entry stands on the other side", () => {
    expect(inFrame(drawing([point({ sets: "q" })]))).toBeUndefined();
  });
});
