// Heights and poses that cannot be had: what is told beside them is told of the others only.

import type { Sweep } from "../../engine.ts";
import { quoted } from "./pair.ts";

type Reached = Pick<Sweep<"compare">, "truck" | "rows" | "refused" | "poses">;

export function reachesAll({ rows }: Pick<Reached, "rows">): boolean {
  return rows.every(({ values }) => values !== undefined);
}

/** Nothing to say where every height can be had. */
export function reachText(trucks: readonly Reached[]): string {
  const short = trucks.filter((truck) => !reachesAll(truck)).map(({ truck }) => quoted(truck));
  if (short.length === 0) return "";
  return `${short.join(" and ")} cannot reach every height asked for. What is said here holds for the heights that can be reached.`;
}

export function refusedText({ refused, poses }: Pick<Reached, "refused" | "poses">): string {
  if (refused === 0) return "";
  return `${refused} of ${poses} places asked for cannot be reached; the numbers leave them out.`;
}
