// The compiled engine answers as the native one does, question by question. (That it does so in a browser's worker too:
// engine.browser.test.ts.)

import { readFileSync } from "node:fs";
import { beforeAll, expect, test } from "vitest";
import { type Core, startCore } from "../../src/engine/core.ts";
import { differences } from "./differences.ts";
import { askNatively, root } from "./native.ts";
import { questionsAbout, questionsBesides } from "./questions.ts";
import { desk, truckFiles } from "./trucks.ts";

const questions = [...truckFiles.flatMap(questionsAbout), ...questionsBesides];

let native: unknown[];
let core: Core;

beforeAll(async () => {
  native = askNatively(questions);
  const wasm = await WebAssembly.compile(readFileSync(`${root}build/wasm/engine.wasm`));
  core = await startCore(wasm, () => {});
  for (const [path, text] of desk) core.put(path, text);
});

test("the examples are there", () => {
  expect(truckFiles.length).toBeGreaterThanOrEqual(6);
});

test("each kind of question was answered, not only refused", () => {
  const kinds = new Set(questions.map((question) => question.ask));
  const answered = new Set(native.map((answer) => (answer as { ask?: string }).ask));
  expect([...kinds].filter((kind) => !answered.has(kind))).toEqual([]);
});

test.each(questions.map((question, place) => [JSON.stringify(question), place] as const))(
  "%s",
  (question, place) => {
    expect(differences(native[place], JSON.parse(core.ask(question)))).toEqual([]);
  },
);
