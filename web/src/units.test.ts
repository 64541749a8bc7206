import { describe, expect, it } from "vitest";
import {
  decimalsFor,
  fromMm,
  lengthText,
  numberText,
  pixelsToMm,
  shownUnit,
  toMm,
  unitSpelled,
} from "./units.ts";

describe("units", () => {
  it("an inch is 25.4 mm exactly", () => {
    expect(fromMm(25.4, "inch")).toBe(1);
    expect(toMm(4, "inch")).toBe(101.6);
    expect(toMm(4, "mm")).toBe(4);
    expect(fromMm(4, "mm")).toBe(4);
  });

  it("a rate over a bump of 25 mm becomes one over an inch", () => {
    const unit = shownUnit("deg per 25 mm", "inch");
    expect(unit.symbol).toBe("deg per inch");
    // 1 deg in 25 mm is 25.4 / 25 deg in 25.4 mm.
    expect(numberText(unit, 1, 3)).toBe("1.016");
  });

  it("96 pixels are an inch of paper", () => {
    expect(pixelsToMm(96)).toBeCloseTo(25.4, 12);
  });

  it("angles stay angles", () => {
    expect(shownUnit("deg", "inch")).toEqual(shownUnit("deg", "mm"));
  });

  it("shows lengths in tenths of a millimetre or hundredths of an inch", () => {
    expect(lengthText(100, "mm")).toBe("100.0 mm");
    expect(lengthText(100, "inch")).toBe("3.94 in");
  });

  it("shows large angles with one place less", () => {
    const deg = shownUnit("deg", "mm");
    expect(decimalsFor(deg, 9.99)).toBe(2);
    expect(decimalsFor(deg, -12)).toBe(1);
  });

  it("has no minus before nothing", () => {
    expect(numberText(shownUnit("deg", "mm"), -1e-12, 2)).toBe("0.00");
    expect(numberText(shownUnit("deg", "mm"), -0.01, 2)).toBe("-0.01");
  });

  it("knows the spellings that a truck file takes, and no property of every object", () => {
    expect(unitSpelled("ft")).toEqual({ kind: "length", size: 304.8 });
    expect(unitSpelled("turn")).toEqual({ kind: "angle", size: 360 });
    expect(unitSpelled("constructor")).toBeUndefined();
    expect(unitSpelled("")).toBeUndefined();
  });
});
