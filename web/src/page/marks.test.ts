import { describe, expect, it } from "vitest";
import type { Drawing } from "../draw/drawing.ts";
import type { Spot } from "./in_frame.ts";
import { axleMiddle, foldMarks, onFrame, stepTowards } from "./marks.ts";

function drawing(points: Readonly<Record<string, Spot>>, on = "frame"): Drawing {
  return {
    view: "pictorial",
    words: "",
    paper_mm: [200, 100],
    scale: 0.1,
    origin_mm: [0, 0],
    layers: [],
    items: [],
    points: Object.entries(points).map(([name, at_mm]) => ({
      name,
      on,
      at_mm,
      sets: name,
      measured_mm: [0, 0, 0],
      across: [0, 0, 0],
      up: [0, 0, 0],
    })),
  };
}

it("lays a way on the frame where it now is", () => {
  const frame = { on: "frame", across: [0, -10, 0], up: [0, 0, 10] } as const;
  const low = drawing({ p: [50, 60] });
  const now = { ...low, points: low.points.map((point) => ({ ...point, ...frame })) };
  expect(
    onFrame(now, [
      [0, 100, 0],
      [0, 100, 50],
    ]),
  ).toEqual([
    [40, 60],
    [40, 65],
  ]);
});

it("lays no way where nothing rides on the frame", () => {
  expect(onFrame(drawing({ p: [0, 0] }, "axle"), [[0, 0, 0]])).toEqual([]);
});

it("finds the middle of the axle between its outermost points", () => {
  const axle = drawing({ right: [20, 30], link: [90, 50], left: [180, 32] }, "axle");
  expect(axleMiddle(axle)).toEqual([100, 31]);
  expect(axleMiddle(drawing({ a: [0, 0] }))).toBeUndefined();
});

it("steps from one place towards another", () => {
  expect(stepTowards([0, 0], [3, 4], 10)).toEqual([6, 8]);
  expect(stepTowards([1, 1], [1, 1], 10)).toEqual([1, 1]);
});

describe("why a folding bar's end runs straight", () => {
  const names = { nearEnd: "b", guideEnd: "a", middle: "m", pivot: "o" };
  // Pivot at the corner of a right angle, the long bar its hypotenuse.
  const fold = drawing({ o: [0, 0], b: [0, 6], a: [8, 0], m: [4, 3] });

  it("draws the circle about the middle, through the pivot", () => {
    const circle = foldMarks(fold, names).find((mark) => mark.is === "circle");
    expect(circle).toEqual({ is: "circle", centre: [4, 3], radius: 5 });
  });

  it("marks three equal lengths and the corner at the pivot", () => {
    const marks = foldMarks(fold, names);
    expect(marks.filter((mark) => mark.is === "equal")).toHaveLength(3);
    expect(marks).toContainEqual({ is: "square", corner: [0, 0], one: [8, 0], two: [0, 6] });
  });

  it("draws nothing of a truck without these points", () => {
    expect(foldMarks(drawing({ o: [0, 0] }), names)).toEqual([]);
  });
});
