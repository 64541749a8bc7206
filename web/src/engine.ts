// The one interface to the engine. Two carriers stand behind it: the compiled engine in a worker (engine/compiled.ts) and
// recorded answers for tests (engine/recorded.ts). What can be asked and answered: api/README.md.

import type { AnswerTo, Failure } from "./engine/answers.ts";
import type { Question } from "./engine/questions.ts";

export * from "./engine/answers.ts";
export { newestOnly } from "./engine/newest.ts";
export * from "./engine/questions.ts";

export interface AskOptions {
  /** Called now and then with the share done, 0 to 1. */
  readonly onProgress?: (share: number) => void;
  /** Aborting it gives the question up: the promise rejects with the signal's reason. */
  readonly signal?: AbortSignal;
}

export interface Engine {
  /** Lays a truck file on the desk, in place of one with the same path. Questions asked before do not see it. */
  put(path: string, text: string): void;
  remove(path: string): void;
  /** The answer, or the faults for which there is none. Rejects only where `signal` was aborted. */
  ask<Q extends Question>(question: Q, options?: AskOptions): Promise<AnswerTo<Q> | Failure>;
}
