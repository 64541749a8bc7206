import { expect, it } from "vitest";
import type { Drawing } from "../draw/drawing.ts";
import { boxAround, onTheRoad, viewBox, wholePaper, withRatio } from "./camera.ts";

function drawing(at: readonly [number, number]): Drawing {
  const zero = [0, 0, 0] as const;
  const point = { name: "p", on: "frame", sets: "p", measured_mm: zero, across: zero, up: zero };
  return {
    view: "front",
    words: "",
    paper_mm: [200, 100],
    scale: 0.1,
    origin_mm: [0, 0],
    layers: [],
    items: [],
    points: [{ ...point, at_mm: at }],
  };
}

it("goes around a point in all poses, with a margin in mm of truck", () => {
  expect(boxAround([drawing([50, 20]), drawing([60, 40])], ["p"], 100)).toEqual({
    left: 40,
    low: 10,
    width: 30,
    height: 40,
  });
});

it("has no box where no pose has the point", () => {
  expect(boxAround([drawing([50, 20])], ["q"], 100)).toBeUndefined();
});

it("grows about its middle to a ratio, and never shrinks", () => {
  expect(withRatio({ left: 40, low: 10, width: 30, height: 40 }, 1.5)).toEqual({
    left: 25,
    low: 10,
    width: 60,
    height: 40,
  });
  expect(withRatio({ left: 0, low: 0, width: 60, height: 10 }, 2)).toEqual({
    left: 0,
    low: -10,
    width: 60,
    height: 30,
  });
});

it("turns the paper over for SVG", () => {
  expect(viewBox({ left: 40, low: 10, width: 30, height: 40 }, 100)).toBe("40 50 30 40");
});

it("stands a truck on the road, as wide as the one beside it", () => {
  const small = { ...drawing([0, 0]), origin_mm: [100, 20] as const };
  expect(onTheRoad(small, 2)).toEqual({ left: 0, low: 14, width: 200, height: 100 });
  const large = { ...small, scale: 0.2 };
  expect(onTheRoad(large, 2, 2)).toEqual({ left: -100, low: 8, width: 400, height: 200 });
  expect(wholePaper(large, 2, 2)).toEqual({ left: -100, low: -50, width: 400, height: 200 });
});
