import { expect, it } from "vitest";
import { refusalNote } from "./refusal.ts";

const report = {
  outcome: "out of reach",
  certificate: "none",
  residual_m: 1,
  last_step_m: 1,
  iterations: 3,
  path_steps: 4,
  set_aside_miss_m: 0,
  what_ran_out: "upper link and axle",
  how_it_ran_out: "run straight",
} as const;

it("says what ran out, and what is drawn instead", () => {
  expect(refusalNote({ complete: false, report, drawn_text: "at height 180 mm" })).toBe(
    "This truck cannot get there: upper link and axle run straight. Drawn as far as it goes: at height 180 mm.",
  );
});

it("says nothing where the picture is what was asked for", () => {
  expect(refusalNote({ complete: true, report, drawn_text: "at height 235 mm" })).toBe("");
});
