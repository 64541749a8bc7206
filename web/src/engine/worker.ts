// The worker that computes: one question at a time.

import { type Core, startCore } from "./core.ts";
import type { FromWorker, ToWorker, Work } from "./messages.ts";

/** Between two words about progress. */
const quiet_ms = 50;

function tell(message: FromWorker): void {
  postMessage(message);
}

let told_ms = 0;

function tellProgress(share: number): void {
  const now_ms = performance.now();
  if (now_ms - told_ms < quiet_ms) return;
  told_ms = now_ms;
  tell({ share });
}

function answer(core: Core, work: Work): void {
  for (const path of work.remove) core.remove(path);
  for (const [path, text] of work.put) core.put(path, text);
  told_ms = performance.now();
  tell({ answer: core.ask(work.question) });
}

/** The first question may come before the module is compiled: it waits for it. */
let begin: (core: Promise<Core>) => void;
const core = new Promise<Core>((resolve) => {
  begin = resolve;
});

addEventListener("message", async ({ data }: MessageEvent<ToWorker>) => {
  try {
    if ("wasm" in data) {
      begin(startCore(data.wasm, tellProgress));
      await core;
    } else {
      answer(await core, data);
    }
  } catch (error) {
    tell({ broke: String(error) });
  }
});
