// A drawing with the points that a test gives it.

import type { Drawing, DrawnPoint } from "../draw/drawing.ts";

/** Seen from behind at a tenth: the frame's left is on the left of the paper. */
export function point(change: Partial<DrawnPoint>): DrawnPoint {
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

export function drawing(points: readonly DrawnPoint[]): Drawing {
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
