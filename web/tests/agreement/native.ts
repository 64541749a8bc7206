// The native engine: build/release/tests/wasm/ask_natively, or what AXLEWRIGHT_NATIVE names.

import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import type { Question } from "../../src/engine.ts";

export const root = fileURLToPath(new URL("../../..", import.meta.url));

const program = process.env.AXLEWRIGHT_NATIVE ?? `${root}build/release/tests/wasm/ask_natively`;

export function askNatively(questions: readonly Question[]): unknown[] {
  const asked = questions.map((question) => `${JSON.stringify(question)}\n`).join("");
  const ran = spawnSync(program, { cwd: root, input: asked, maxBuffer: 1 << 30, encoding: "utf8" });
  if (ran.error) throw ran.error;
  if (ran.status !== 0) throw new Error(`${program} ended with ${ran.status}: ${ran.stderr}`);
  return ran.stdout
    .trimEnd()
    .split("\n")
    .map((line) => JSON.parse(line));
}
