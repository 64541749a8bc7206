import { expect, it } from "vitest";
import { dashes } from "./line_style.ts";

it("dashes grow with the weight of the line", () => {
  expect(dashes("dashed", 0.25)).toBe("3 0.75");
  expect(dashes("dashed", 0.5)).toBe("6 1.5");
});

it("a centre line has a dot between long dashes, an adjacent part two", () => {
  expect(dashes("chain", 0.25)).toBe("6 0.75 0.125 0.75");
  expect(dashes("double dot", 0.25)).toBe("6 0.75 0.125 0.75 0.125 0.75");
});

it("a continuous line has no dashes", () => {
  expect(dashes("continuous", 0.5)).toBe("none");
});
