import { expect, it } from "vitest";
import { csvText, stripsCsv } from "./csv.ts";

it("quotes what would end a field", () => {
  expect(csvText([["a,b", 'say "x"', 1.5, null]])).toBe('"a,b","say ""x""",1.5,\r\n');
});

it("has a row for each height and an empty field where there is no value", () => {
  const columns = [{ name: "toe_deg", values: [0.25, null] }];
  expect(stripsCsv([0, 10], columns)).toBe("height_mm,toe_deg\r\n0,0.25\r\n10,\r\n");
});
