import { describe, expect, it } from "vitest";
import { lineChanges } from "./line_changes.ts";

describe("lines that change", () => {
  it("are none between equal texts", () => {
    expect(lineChanges("a\nb\n", "a\nb\n")).toEqual([]);
  });

  it("have their number and both sides", () => {
    expect(lineChanges("a\nb\nc", "a\nB\nc")).toEqual([{ line: 2, before: ["b"], after: ["B"] }]);
  });

  it("two changes with a line between stay two", () => {
    expect(lineChanges("1\n2\n3\n4", "x\n2\ny\n4")).toEqual([
      { line: 1, before: ["1"], after: ["x"] },
      { line: 3, before: ["3"], after: ["y"] },
    ]);
  });

  it("an added line shifts nothing", () => {
    expect(lineChanges("a\nb\nc\nd", "a\nnew\nb\nC\nd")).toEqual([
      { line: 2, before: [], after: ["new"] },
      { line: 3, before: ["c"], after: ["C"] },
    ]);
  });

  it("a taken line has no side after", () => {
    expect(lineChanges("a\nb\nc", "a\nc")).toEqual([{ line: 2, before: ["b"], after: [] }]);
  });

  it("an empty text is one empty line", () => {
    expect(lineChanges("", "a")).toEqual([{ line: 1, before: [""], after: ["a"] }]);
  });
});
