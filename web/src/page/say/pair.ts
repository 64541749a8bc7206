// Which of the things that can be true of two trucks is true. Sentences are chosen by it, so that none says more than the
// engine's numbers do.

/** The farthest that a truck gets from zero; null where a pose that it needs cannot be had. */
export type Worst = number | null;

export type PairCase =
  /** At least one has no number: which. */
  | { readonly is: "cannot"; readonly which: "first" | "second" | "both" }
  /** Neither moves by anything that can be seen. */
  | { readonly is: "both still" }
  /** Both move, and by the same. */
  | { readonly is: "alike"; readonly by: number }
  /** One moves, the other does not. */
  | { readonly is: "one still"; readonly still: "first" | "second"; readonly by: number }
  /** Both move, one less. */
  | { readonly is: "differ"; readonly less: "first" | "second" };

export interface Pair {
  readonly names: readonly [string, string];
  readonly worst: readonly [Worst, Worst];
  /** As the engine judges it. */
  readonly alike: boolean;
}

export function caseOf(pair: Pair, still: number): PairCase {
  const [a, b] = pair.worst;
  if (a === null || b === null) {
    return { is: "cannot", which: a !== null ? "second" : b !== null ? "first" : "both" };
  }
  const stillA = Math.abs(a) < still;
  const stillB = Math.abs(b) < still;
  if (stillA && stillB) return { is: "both still" };
  if (pair.alike) return { is: "alike", by: a };
  if (stillA) return { is: "one still", still: "first", by: b };
  if (stillB) return { is: "one still", still: "second", by: a };
  return { is: "differ", less: Math.abs(a) < Math.abs(b) ? "first" : "second" };
}

/** Truck names have commas in them; in a sentence they stand in quotation marks. */
export function quoted(name: string): string {
  return `“${name}”`;
}

export function nameOf(pair: Pair, which: "first" | "second"): string {
  return quoted(pair.names[which === "first" ? 0 : 1]);
}

export function other(which: "first" | "second"): "first" | "second" {
  return which === "first" ? "second" : "first";
}

/** What is said where a number cannot be had, whatever it is a number of. */
export function cannotText(pair: Pair, which: "first" | "second" | "both"): string {
  const who = which === "both" ? pair.names.map(quoted).join(" and ") : nameOf(pair, which);
  return `${who} cannot reach every height asked for, so there is nothing to set side by side here.`;
}
