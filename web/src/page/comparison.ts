// The engine's comparison, looked up by what a row is of.

import type { CompareAnswer } from "../engine.ts";
import type { Pair } from "./say/pair.ts";

export type Row = CompareAnswer["comparison"][number];

/** Over the heights where there are two rows of one quantity: the engine gives that one first. */
export function rowOf(answer: CompareAnswer, name: string): Row | undefined {
  return answer.comparison.find((row) => row.name === name);
}

export function pairOf(answer: CompareAnswer, name: string): Pair {
  const row = rowOf(answer, name);
  const [first, second] = answer.trucks;
  return {
    names: [first?.truck ?? "", second?.truck ?? ""],
    worst: [row?.worst[0] ?? null, row?.worst[1] ?? null],
    alike: row?.best.length === 0,
  };
}
