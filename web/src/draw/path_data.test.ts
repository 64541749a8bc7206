import { describe, expect, it } from "vitest";
import { arcData, areaData, polylineData, strokeData } from "./path_data.ts";

const kHeight = 100;

describe("path data", () => {
  it("turns the paper over: up on paper is up on the screen", () => {
    expect(polylineData([10, 0, 10, 100], kHeight)).toBe("M10 100L10 0");
  });

  it("closes a silhouette", () => {
    expect(areaData([0, 0, 10, 0, 10, 10], kHeight)).toBe("M0 100L10 100L10 90Z");
  });

  it("draws every silhouette the same way round", () => {
    const there = areaData([0, 0, 10, 0, 10, 10], kHeight);
    expect(areaData([10, 10, 10, 0, 0, 0], kHeight)).toBe("M0 100L10 100L10 90Z");
    expect(there).toBe("M0 100L10 100L10 90Z");
    expect(areaData([], kHeight)).toBe("");
  });

  it("draws a quarter turn anticlockwise from the right to the top", () => {
    // From (60, 50) to (50, 60) on paper: over the right upper quarter, which is above the centre on the screen.
    expect(arcData([50, 50, 10, 0, 90], kHeight)).toBe("M60 50A10 10 0 0 0 50 40");
  });

  it("takes the long way for more than half a turn", () => {
    expect(arcData([50, 50, 10, 0, 270], kHeight)).toBe("M60 50A10 10 0 1 0 50 60");
  });

  it("goes anticlockwise past the right", () => {
    // From the bottom over the right to the top: half a turn, not more.
    expect(arcData([50, 50, 10, 270, 90], kHeight)).toBe("M50 60A10 10 0 0 0 50 40");
  });

  it("draws a circle as two halves", () => {
    expect(arcData([50, 50, 10, 0, 360], kHeight)).toBe(
      "M60 50A10 10 0 1 0 40 50A10 10 0 1 0 60 50",
    );
  });

  it("writes a hundredth of a millimetre and no more", () => {
    expect(polylineData([1 / 3, 0, 2 / 3, 0], kHeight)).toBe("M0.33 100L0.67 100");
  });

  it("gives no stroke for a text", () => {
    const text = {
      at: [0, 0] as const,
      text: "x",
      height_mm: 3.5,
      anchor: "start" as const,
      turn_deg: 0,
    };
    expect(strokeData({ layer: "text", part: "axle", text }, kHeight)).toBe("");
  });
});
