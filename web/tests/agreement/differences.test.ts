import { expect, test } from "vitest";
import { differences } from "./differences.ts";

test("equal answers agree", () => {
  const answer = { story: ["a"], values: { toe_deg: 1.5, x_mm: null }, done: true };
  expect(differences(answer, structuredClone(answer))).toEqual([]);
});

test("rounding is no difference, a nanometre and more is", () => {
  expect(differences({ place_mm: [1, 2] }, { place_mm: [1, 2.0000009] })).toEqual([]);
  expect(differences({ place_mm: [1, 2] }, { place_mm: [1, 2.0000011] })).toEqual([
    "answer.place_mm.1: 2 or 2.0000011",
  ]);
});

test("other numbers may differ by a billionth", () => {
  expect(differences({ toe_deg: 100 }, { toe_deg: 100.00000009 })).toEqual([]);
  expect(differences({ toe_deg: 100 }, { toe_deg: 100.0000002 })).toHaveLength(1);
  expect(differences({ toe_deg: 0 }, { toe_deg: 2e-9 })).toHaveLength(1);
});

test("words, counts, presence and order must be the same", () => {
  expect(differences({ text: "a" }, { text: "b" })).toEqual(['answer.text: "a" or "b"']);
  expect(differences({ steps: 3 }, { steps: 4 })).toHaveLength(1);
  expect(differences({ a: 1 }, {})).toEqual(["answer.a: 1 or nothing"]);
  expect(differences({ a: null }, { a: 0 })).toHaveLength(1);
  expect(differences({ a: 1 }, { a: "1" })).toHaveLength(1);
  expect(differences([1, 2], [2, 1])).toHaveLength(2);
  expect(differences([1], [1, 2])).toHaveLength(1);
});

test("the solver's own rounding must be small, not the same", () => {
  expect(differences({ residual_m: 1e-16 }, { residual_m: 3e-13 })).toEqual([]);
  expect(differences({ residual_m: 1e-16 }, { residual_m: 2e-9 })).toHaveLength(1);
});

test("the axis of no turn is not compared, that of a turn is", () => {
  const body = (turn_deg: number, turn_axis: number[]) => ({ turn_deg, turn_axis });
  expect(differences(body(1e-12, [0, 0, 1]), body(1e-12, [0, 1, 0]))).toEqual([]);
  expect(differences(body(1, [0, 0, 1]), body(1, [0, 1, 0]))).toHaveLength(2);
});

test("drawings are held together as finely as they are written", () => {
  expect(differences({ line: [1, 2, 3, 4] }, { line: [1, 2.01, 3, 4] })).toEqual([]);
  expect(differences({ line: [1, 2, 3, 4] }, { line: [1, 2.02, 3, 4] })).toHaveLength(1);
  expect(differences({ area: [1, 2] }, { area: [1, 2, 3, 4] })).toHaveLength(2);
  const arc = [10, 20, 5, -90, 90];
  expect(differences({ arc }, { arc: [10, 20.01, 5, -90.1, 90] })).toEqual([]);
  expect(differences({ arc }, { arc: [10, 20, 5, 270, 450] })).toEqual([]);
  expect(differences({ arc }, { arc: [10, 20, 5, 90, 270] })).not.toEqual([]);
  expect(differences({ arc }, { arc: [10, 20, 5, -90, 89.8] })).not.toEqual([]);
  expect(differences({ arc }, { arc: [10, 20, 5.02, -90, 90] })).not.toEqual([]);
  expect(differences({ arc }, { line: arc })).not.toEqual([]);
});
