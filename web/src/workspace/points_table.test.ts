import { expect, it } from "vitest";
import { withUnit } from "./points_table.ts";

it("a bare number gets the reader's unit", () => {
  expect(withUnit("543.2", "mm")).toBe("543.2 mm");
  expect(withUnit(" 35 1/2 ", "inch")).toBe("35 1/2 in");
  expect(withUnit("1/2", "inch")).toBe("1/2 in");
  expect(withUnit("-90", "mm")).toBe("-90 mm");
});

it("what has a unit, or is no number, goes to the engine as it is", () => {
  expect(withUnit("21 1/4 in", "mm")).toBe("21 1/4 in");
  expect(withUnit("2 ft 3 in", "mm")).toBe("2 ft 3 in");
  expect(withUnit("nonsense", "mm")).toBe("nonsense");
});
