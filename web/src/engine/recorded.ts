// Recorded answers in place of the engine, for tests of what draws and formats.

import type { Engine } from "../engine.ts";
import type { Answer, AnswerTo, Failure } from "./answers.ts";
import type { Question } from "./questions.ts";

/** The same text for the same question, in whatever order its keys were written. */
export function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join(",")}]`;
  if (value === null || typeof value !== "object") return JSON.stringify(value);
  const entries = Object.entries(value)
    .filter(([, inner]) => inner !== undefined)
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(([key, inner]) => `${JSON.stringify(key)}:${canonical(inner)}`);
  return `{${entries.join(",")}}`;
}

export interface RecordedEngine extends Engine {
  /** What lies on the desk now. */
  readonly desk: ReadonlyMap<string, string>;
  /** Every question that was asked, the first one first. */
  readonly asked: readonly Question[];
}

/** Answers the questions that were recorded, and rejects every other: then the test has to record that one too. */
export function recordedEngine(
  recorded: Iterable<readonly [Question, Answer | Failure]>,
): RecordedEngine {
  const answers = new Map<string, Answer | Failure>();
  for (const [question, answer] of recorded) answers.set(canonical(question), answer);
  const desk = new Map<string, string>();
  const asked: Question[] = [];

  return {
    desk,
    asked,
    put: (path, text) => {
      desk.set(path, text);
    },
    remove: (path) => {
      desk.delete(path);
    },
    async ask<Q extends Question>(question: Q, options?: { readonly signal?: AbortSignal }) {
      options?.signal?.throwIfAborted();
      asked.push(question);
      const answer = answers.get(canonical(question));
      if (answer === undefined) throw new Error(`not recorded: ${canonical(question)}`);
      // Recorded for this question, so of the type that belongs to it.
      return answer as AnswerTo<Q> | Failure;
    },
  };
}
