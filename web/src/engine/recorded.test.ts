import { expect, test } from "vitest";
import { canonical, recordedEngine } from "./recorded.ts";

const nothing = { faults: [] };

test("the order in which keys are written makes no other question", () => {
  const one = { ask: "pose", height_mm: 1, set: ["a", "b"] };
  expect(canonical(one)).toBe(canonical({ set: ["a", "b"], height_mm: 1, ask: "pose" }));
  expect(canonical(one)).not.toBe(canonical({ ...one, set: ["b", "a"] }));
  expect(canonical(one)).not.toBe(canonical({ ...one, height_mm: 2 }));
});

test("a key without a value is as good as absent", () => {
  expect(canonical({ ask: "check", units: undefined })).toBe(canonical({ ask: "check" }));
});

test("gives what was recorded", async () => {
  const engine = recordedEngine([[{ ask: "check", file: "truck.toml" }, nothing]]);
  expect(await engine.ask({ file: "truck.toml", ask: "check" })).toBe(nothing);
  expect(engine.asked).toEqual([{ ask: "check", file: "truck.toml" }]);
});

test("a question that was not recorded is refused, with the question", async () => {
  const engine = recordedEngine([[{ ask: "check", file: "truck.toml" }, nothing]]);
  await expect(engine.ask({ ask: "check", file: "other.toml" })).rejects.toThrow(
    'not recorded: {"ask":"check","file":"other.toml"}',
  );
});

test("an asking that was given up rejects", async () => {
  const engine = recordedEngine([[{ ask: "check", file: "truck.toml" }, nothing]]);
  const given = { signal: AbortSignal.abort() };
  await expect(engine.ask({ ask: "check", file: "truck.toml" }, given)).rejects.toThrow(/abort/i);
});
