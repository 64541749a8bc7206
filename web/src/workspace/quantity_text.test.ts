import { describe, expect, it } from "vitest";
import { readQuantity } from "./quantity_text.ts";

function value(text: string, kind: "length" | "angle", bare = kind === "length" ? "mm" : "deg") {
  const read = readQuantity(text, kind, bare);
  if (!read.ok) throw new Error(`${text}: ${read.what}`);
  return read.value;
}

function what(text: string, kind: "length" | "angle" = "length") {
  const read = readQuantity(text, kind, kind === "length" ? "mm" : "deg");
  return read.ok ? `read as ${read.value}` : read.what;
}

describe("what is typed into a field", () => {
  // The rows of engine/base/quantity_text_test.cpp, in mm.
  it.each([
    ["902 mm", 902],
    ["35.5 in", 901.7],
    ["35 1/2 in", 901.7],
    ["90.2 cm", 902],
    ["0.9 m", 900],
    ["2 ft 3 in", 685.8],
    ["+10mm", 10],
    ["-10 mm", -10],
    [" 1/2 in ", 12.7],
    ["2' 3 1/4\"", 692.15],
    ["- 2 ft 3 in", -685.8],
    [".5in", 12.7],
    ["1e3 mm", 1000],
    ["3 feet", 914.4],
    ["1 inch", 25.4],
    ["1 m 20 cm 3 mm", 1203],
    ["0 mm", 0],
  ])("reads the length %s", (text, mm) => {
    expect(value(text, "length")).toBeCloseTo(mm, 10);
  });

  it.each([
    ["4 deg", 4],
    ["4 deg 30 min", 4.5],
    ["-4 deg 30 min", -4.5],
    ["3 turns", 1080],
    ["1 turn", 360],
    ["6 min", 0.1],
    ["12\u00b0 30\u2032", 12.5],
    ["2.5 degrees", 2.5],
  ])("reads the angle %s", (text, deg) => {
    expect(value(text, "angle")).toBeCloseTo(deg, 10);
  });

  it("takes a bare number in the field's own unit", () => {
    expect(value("100", "length", "mm")).toBe(100);
    expect(value("4", "length", "in")).toBeCloseTo(101.6, 10);
    expect(value("-3.5", "angle")).toBe(-3.5);
    expect(value("35 1/2", "length", "in")).toBeCloseTo(901.7, 10);
  });

  it.each([
    ["", /no number/],
    ["+", /no number/],
    ["mm", /a number is missing/],
    ["nonsense", /a number is missing/],
    ["nan mm", /a number is missing/],
    ["902 mm 3", /a unit is missing/],
    ["902 3", /a unit is missing/],
    ["902 milli", /no unit is called 'milli'/],
    ["35,5 in", /decimal point/],
    ["35 1/0 in", /fraction/],
    ["35 3/2 in", /fraction/],
    ["1/ in", /fraction/],
    ["2 in 3 ft", /larger unit first/],
    ["2 in 3 in", /larger unit first/],
    ["2 in 3 deg", /a length is wanted/],
    ["2 ft -3 in", /a number is missing/],
    ["1e999", /too large/],
  ])("says what is wrong with '%s'", (text, words) => {
    expect(what(text)).toMatch(words);
  });

  it("wants an angle where an angle belongs", () => {
    expect(what("3 in", "angle")).toMatch(/an angle is wanted/);
  });
});
