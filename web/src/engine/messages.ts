// What page and worker say to each other.

/** The first message to a worker. */
export interface Start {
  readonly wasm: WebAssembly.Module;
}

/** A question, with what changed on the desk since the last one. */
export interface Work {
  readonly put: readonly (readonly [path: string, text: string])[];
  readonly remove: readonly string[];
  readonly question: string;
}

export type ToWorker = Start | Work;

/** How far it has come, the answer, or why the worker cannot go on. */
export type FromWorker =
  | { readonly share: number }
  | { readonly answer: string }
  | { readonly broke: string };
