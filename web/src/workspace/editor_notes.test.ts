import { describe, expect, it } from "vitest";
import type { Fault } from "../engine.ts";
import { notesByLine, offsetOf, stacked } from "./editor_notes.ts";

function fault(line: number, what: string, file = "a.toml"): Fault {
  return { severity: "error", file, line, column: 1, length: 1, what, fix: "", source_line: "" };
}

describe("notes", () => {
  it("are those of the file, by line", () => {
    const notes = notesByLine(
      [fault(7, "late"), fault(2, "early"), fault(2, "second"), fault(3, "other", "b.toml")],
      "a.toml",
    );
    expect(notes.map((one) => [one.line, one.faults.map((each) => each.what)])).toEqual([
      [2, ["early", "second"]],
      [7, ["late"]],
    ]);
  });

  it("without a line stand at the first", () => {
    expect(notesByLine([fault(0, "no place")], "a.toml")[0]?.line).toBe(1);
  });

  it("stand beside their line where there is room, else below the one before", () => {
    expect(stacked([0, 20, 200], [50, 50, 50], 4)).toEqual([0, 54, 200]);
  });
});

describe("places in a text", () => {
  const text = "one\n\u00e9\u{1F69A}x\nthree";
  it("count lines and columns from 1", () => {
    expect(offsetOf(text, 1, 1)).toBe(0);
    expect(text.slice(offsetOf(text, 3, 2))).toBe("hree");
  });

  it("count code points, as the engine does", () => {
    expect(text.slice(offsetOf(text, 2, 3), offsetOf(text, 2, 4))).toBe("x");
  });

  it("end with the text", () => {
    expect(offsetOf("ab", 9, 9)).toBe(2);
  });
});
