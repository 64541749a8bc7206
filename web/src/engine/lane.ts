// One worker and the questions that wait for it.

import type { FromWorker, ToWorker } from "./messages.ts";

/** What a lane needs of a Worker. */
export interface WorkerLike {
  onmessage: ((event: MessageEvent<FromWorker>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
  postMessage(message: ToWorker): void;
  terminate(): void;
}

export type Desk = ReadonlyMap<string, string>;

export type Outcome = { readonly answer: string } | { readonly broke: string };

export interface Job {
  /** The files as they were when it was asked. */
  readonly desk: Desk;
  readonly question: string;
  readonly onProgress: (share: number) => void;
  readonly done: (outcome: Outcome) => void;
}

/**
 * Questions are answered in the order in which they came, each with the desk that it came with. A worker that broke down, or
 * whose question was given up, makes room for a new one.
 */
export class Lane {
  readonly #startWorker: () => WorkerLike;
  readonly #wasm: Promise<WebAssembly.Module>;
  readonly #waiting: Job[] = [];
  #running: Job | undefined;
  #worker: WorkerLike | undefined;
  /** What the worker's desk holds. */
  #laid: Desk = new Map();

  constructor(startWorker: () => WorkerLike, wasm: Promise<WebAssembly.Module>) {
    this.#startWorker = startWorker;
    this.#wasm = wasm;
  }

  add(job: Job): void {
    this.#waiting.push(job);
    this.#next();
  }

  /** Its `done` will not be called any more. */
  giveUp(job: Job): void {
    const place = this.#waiting.indexOf(job);
    if (place >= 0) this.#waiting.splice(place, 1);
    if (this.#running !== job) return;
    this.#running = undefined;
    this.#dismiss();
    this.#next();
  }

  #next(): void {
    if (this.#running) return;
    const job = this.#waiting.shift();
    if (!job) return;
    this.#running = job;
    try {
      this.#worker ??= this.#start();
      this.#worker.postMessage({ ...changes(this.#laid, job.desk), question: job.question });
      this.#laid = job.desk;
    } catch (error) {
      this.#finish({ broke: String(error) });
    }
  }

  #start(): WorkerLike {
    const worker = this.#startWorker();
    // What a dismissed worker still says is no longer of interest.
    const ifPresent = (say: () => void) => {
      if (this.#worker === worker) say();
    };
    worker.onmessage = ({ data }) => ifPresent(() => this.#hear(data));
    worker.onerror = ({ message }) => ifPresent(() => this.#finish({ broke: message }));
    this.#wasm.then(
      (wasm) => worker.postMessage({ wasm }),
      (error) => ifPresent(() => this.#finish({ broke: String(error) })),
    );
    return worker;
  }

  #hear(message: FromWorker): void {
    if ("share" in message) this.#running?.onProgress(message.share);
    else this.#finish(message);
  }

  #finish(outcome: Outcome): void {
    const job = this.#running;
    this.#running = undefined;
    if ("broke" in outcome) this.#dismiss();
    job?.done(outcome);
    this.#next();
  }

  #dismiss(): void {
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#laid = new Map();
  }
}

function changes(from: Desk, to: Desk) {
  return {
    put: [...to].filter(([path, text]) => from.get(path) !== text),
    remove: [...from.keys()].filter((path) => !to.has(path)),
  };
}
