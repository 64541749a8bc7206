import { expect, it } from "vitest";
import { reachesAll, reachText, refusedText } from "./reach.ts";

const report = {
  outcome: "converged",
  certificate: "followed",
  residual_m: 0,
  last_step_m: 0,
  iterations: 1,
  path_steps: 1,
  set_aside_miss_m: 0,
} as const;
const row = { height_mm: 0, report, smallest_singular_value: 1 };
const had = { truck: "A", rows: [{ ...row, values: {} }], refused: 0, poses: 10 };
const notHad = { truck: "B", rows: [{ ...row, values: {} }, row], refused: 3, poses: 10 };

it("is silent where everything can be reached", () => {
  expect(reachesAll(had)).toBe(true);
  expect(reachText([had, had])).toBe("");
  expect(refusedText(had)).toBe("");
});

it("names who cannot, and says what the rest is told of", () => {
  expect(reachesAll(notHad)).toBe(false);
  expect(reachText([had, notHad])).toMatch(/^“B” cannot reach every height asked for\./);
  expect(reachText([notHad, notHad])).toMatch(/^“B” and “B” cannot/);
  expect(refusedText(notHad)).toMatch(/^3 of 10 places/);
});
