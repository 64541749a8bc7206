import { describe, expect, it } from "vitest";
import type { Drawing } from "../draw/drawing.ts";
import type { Influence } from "../engine.ts";
import { arrowsFor, wayOnPaper } from "./arrows.ts";

// Front view at 1 to 10: y of the truck to the right of the paper, z up.
const front = { across: [0, 10, 0] as const, up: [0, 0, 10] as const };

describe("the way of a coordinate on the paper", () => {
  it("is that of the view", () => {
    expect(wayOnPaper(front, "y")).toEqual([1, 0]);
    expect(wayOnPaper(front, "z")).toEqual([0, 1]);
  });

  it("is none where it points at the reader", () => {
    expect(wayOnPaper(front, "x")).toBeUndefined();
  });

  it("of a mirrored point is its origin's", () => {
    expect(wayOnPaper({ ...front, across: [0, -10, 0] }, "y")).toEqual([-1, 0]);
  });
});

it("an arrow is longer where a millimetre does more, and keeps its number in the list", () => {
  const point = { name: "a", on: "axle", at_mm: [50, 40], sets: "a", measured_mm: [0, 0, 0] };
  const drawing = {
    paper_mm: [100, 80],
    points: [{ ...point, ...front }],
  } as unknown as Drawing;
  const influence = (coordinate: Influence["coordinate"], per_mm: number): Influence => ({
    name: "a",
    coordinate,
    on: "",
    per_mm,
    text: "",
  });
  const arrows = arrowsFor(drawing, [
    influence("x", 5),
    influence("z", -4),
    influence("length", 3),
    influence("y", 1),
  ]);
  expect(arrows.map((arrow) => arrow.rank)).toEqual([2, 4]);
  const [up, across] = arrows;
  expect(up?.to[0]).toBe(50);
  expect(up?.to[1]).toBeGreaterThan(40);
  const length = (arrow: (typeof arrows)[number] | undefined) =>
    arrow ? Math.hypot(arrow.to[0] - arrow.from[0], arrow.to[1] - arrow.from[1]) : 0;
  expect(length(up)).toBeGreaterThan(length(across));
});

it("an arrow stays on the paper", () => {
  const point = { name: "a", on: "axle", at_mm: [50, 66], sets: "a", measured_mm: [0, 0, 0] };
  const drawing = {
    paper_mm: [100, 80],
    points: [{ ...point, ...front }],
  } as unknown as Drawing;
  const [arrow] = arrowsFor(drawing, [{ name: "a", coordinate: "z", on: "", per_mm: 5, text: "" }]);
  expect(arrow?.to[1]).toBe(75);
});
