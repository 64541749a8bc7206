// The types of src/engine/answers.ts are those of the engine's answers: the compiler is given real answers and finds neither
// a key that a type lacks, nor one too many, nor one of another kind.

import { fileURLToPath } from "node:url";
import ts from "typescript";
import { expect, test } from "vitest";
import type { Question } from "../../src/engine.ts";
import { askNatively } from "./native.ts";
import { questionsAbout, questionsBesides } from "./questions.ts";

const web = fileURLToPath(new URL("../..", import.meta.url));
const sample = `${web}tests/agreement/sample.ts`;

/** What the compiler says of a source text that stands beside this file, but on no disk. */
function complaints(text: string): string[] {
  const config = ts.readConfigFile(`${web}tsconfig.json`, ts.sys.readFile);
  const { options } = ts.parseJsonConfigFileContent(config.config, ts.sys, web);
  const host = ts.createCompilerHost(options);
  const { fileExists, readFile } = host;
  host.fileExists = (path) => path === sample || fileExists(path);
  host.readFile = (path) => (path === sample ? text : readFile(path));
  const program = ts.createProgram(
    [sample],
    { ...options, types: [], allowJs: false, checkJs: false },
    host,
  );
  return ts.getPreEmitDiagnostics(program).map(({ messageText, start = 0 }) => {
    const told = ts.flattenDiagnosticMessageText(messageText, " ").slice(0, 300);
    return `${text.slice(start, start + 80)}: ${told}`;
  });
}

/** The kinds of what a value holds, whatever the numbers and words are. */
function shapeOf(value: unknown): unknown {
  if (value === null || typeof value !== "object") return value === null ? null : typeof value;
  return Object.entries(value).map(([key, inner]) => [key, shapeOf(inner)]);
}

/** The same with one entry of each shape in long lists: more of them tell nothing, and the compiler has its limits. */
function thinned(value: unknown): unknown {
  if (value === null || typeof value !== "object") return value;
  if (!Array.isArray(value)) {
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, thinned(inner)]));
  }
  if (!value.some((entry) => typeof entry === "object")) return value;
  const entries = value.map(thinned);
  if (value.length < 4) return entries;
  return [...new Map(entries.map((entry) => [JSON.stringify(shapeOf(entry)), entry])).values()];
}

/** A source text that gives each answer its type. */
function typed(...answers: readonly (readonly [type: string, answer: unknown])[]): string {
  const lines = answers.map(
    ([type, answer], place) =>
      `export const answer${place}: ${type} = ${JSON.stringify(thinned(answer))};`,
  );
  return ['import type * as Of from "../../src/engine.ts";', ...lines].join("\n");
}

const questions: Question[] = [
  ...questionsAbout("trucks/guided-loose.toml"),
  ...questionsAbout("trucks/plain-mismatched.toml"),
  ...questionsBesides,
];

test("answers are of their types", () => {
  const answers = askNatively(questions).map((answer, place) => {
    const refused = Object.hasOwn(answer as object, "faults");
    const type = refused ? "Of.Failure" : `Of.Answers["${questions[place]?.ask}"]`;
    return [type, answer] as const;
  });
  expect(new Set(answers.map(([type]) => type)).size).toBe(10);
  expect(complaints(typed(...answers))).toEqual([]);
});

test("the compiler would notice", () => {
  const fault = {
    severity: "error",
    file: "",
    line: 0,
    column: 0,
    length: 1,
    what: "a",
    fix: "b",
    source_line: "",
  };
  expect(complaints(typed(["Of.Failure", { faults: [fault] }]))).toEqual([]);
  expect(complaints(typed(["Of.Failure", { faults: [{ ...fault, more: 1 }] }]))).toHaveLength(1);
  expect(complaints(typed(["Of.Failure", { faults: [{ ...fault, what: 1 }] }]))).toHaveLength(1);
  expect(
    complaints(typed(["Of.Failure", { faults: [{ ...fault, what: undefined }] }])),
  ).toHaveLength(1);
});
