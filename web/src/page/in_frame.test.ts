import { describe, expect, it } from "vitest";
import { inFrame } from "./in_frame.ts";
import { drawing, point } from "./sample_drawing.ts";

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
