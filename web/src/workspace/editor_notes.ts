// Where the notes to a text's lines stand: beside their line, none over another.

import type { Fault } from "../engine.ts";

export interface LineNotes {
  readonly line: number;
  readonly faults: readonly Fault[];
}

/** Faults of one file by line, the first line first. A fault without a place belongs to line 1. */
export function notesByLine(faults: readonly Fault[], path: string): LineNotes[] {
  const lines = new Map<number, Fault[]>();
  for (const fault of faults) {
    if (fault.file !== path) continue;
    const line = Math.max(1, fault.line);
    lines.set(line, [...(lines.get(line) ?? []), fault]);
  }
  return [...lines].sort(([a], [b]) => a - b).map(([line, of]) => ({ line, faults: of }));
}

/** Tops of notes that would like to stand at `wished` and are so tall: each below the one before. */
export function stacked(
  wished: readonly number[],
  heights: readonly number[],
  gap: number,
): number[] {
  let free = Number.NEGATIVE_INFINITY;
  return wished.map((top, i) => {
    const placed = Math.max(top, free);
    free = placed + (heights[i] as number) + gap;
    return placed;
  });
}

/** Where in the text a line and column lie, both counted from 1; columns count code points. */
export function offsetOf(text: string, line: number, column: number): number {
  const lines = text.split("\n");
  const before = lines.slice(0, line - 1).reduce((sum, one) => sum + one.length + 1, 0);
  const inLine = [...(lines[line - 1] ?? "")].slice(0, column - 1).join("").length;
  return Math.min(before + inLine, text.length);
}
