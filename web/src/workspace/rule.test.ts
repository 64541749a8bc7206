import { expect, it } from "vitest";
import { ruleHeights } from "./rule.ts";

it("numbers round heights of the reader's unit", () => {
  expect(ruleHeights([0, 235], "mm")).toEqual([0, 50, 100, 150, 200]);
  // 235 mm are 9.25 in: every 2 in.
  const inches = ruleHeights([0, 235], "inch");
  expect(inches).toHaveLength(5);
  expect(inches[4]).toBeCloseTo(203.2, 10);
});
