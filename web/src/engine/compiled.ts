// The compiled engine behind the interface of engine.ts: workers compute, so that the page never waits.

import type { AskOptions, Engine } from "../engine.ts";
import type { AnswerTo, Failure } from "./answers.ts";
import { type Desk, type Job, Lane, type Outcome, type WorkerLike } from "./lane.ts";
import type { Question } from "./questions.ts";

export interface CompiledParts {
  readonly startWorker: () => WorkerLike;
  readonly wasm: Promise<WebAssembly.Module>;
}

/** Questions that take seconds: a lane of their own, so that the others need not wait for them. */
const long: ReadonlySet<Question["ask"]> = new Set(["check", "sweep", "compare", "setup"]);

export function compiledEngine({ startWorker, wasm }: CompiledParts): Engine {
  const lanes = { quick: new Lane(startWorker, wasm), long: new Lane(startWorker, wasm) };
  let desk: Desk = new Map();
  // Why it cannot be compiled is told with each answer; until the first one it is nobody's complaint.
  wasm.catch(() => {});

  return {
    put(path, text) {
      desk = new Map([...desk, [path, text]]);
    },
    remove(path) {
      desk = new Map([...desk].filter(([other]) => other !== path));
    },
    ask<Q extends Question>(question: Q, { onProgress, signal }: AskOptions = {}) {
      const lane = long.has(question.ask) ? lanes.long : lanes.quick;
      return new Promise<AnswerTo<Q> | Failure>((resolve, reject) => {
        signal?.throwIfAborted();
        const job: Job = {
          desk,
          question: JSON.stringify(question),
          onProgress: onProgress ?? (() => {}),
          done(outcome) {
            signal?.removeEventListener("abort", giveUp);
            resolve(answerOf(outcome));
          },
        };
        function giveUp() {
          lane.giveUp(job);
          reject(signal?.reason);
        }
        signal?.addEventListener("abort", giveUp, { once: true });
        lane.add(job);
      });
    },
  };
}

/** As the engine wrote it; where it broke down, a failure of the same shape. */
function answerOf<Q extends Question>(outcome: Outcome): AnswerTo<Q> | Failure {
  if ("answer" in outcome) return JSON.parse(outcome.answer);
  return {
    faults: [
      {
        severity: "error",
        file: "",
        line: 0,
        column: 0,
        length: 1,
        what: `the engine stopped: ${outcome.broke}`,
        fix: "ask again: it starts anew",
        source_line: "",
      },
    ],
  };
}
