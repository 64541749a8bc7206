// Dashes of a shop drawing, in multiples of the line's own weight.

import type { LineKind } from "./drawing.ts";

// ISO 128-20:1996, table 3 (lengths of line elements, from memory): dash 12 d, gap 3 d, long dash 24 d, dot half of d at most.
const kDash = 12;
const kGap = 3;
const kLongDash = 24;
const kDot = 0.5;

const kPatterns: Readonly<Record<LineKind, readonly number[]>> = {
  continuous: [],
  dashed: [kDash, kGap],
  chain: [kLongDash, kGap, kDot, kGap],
  "double dot": [kLongDash, kGap, kDot, kGap, kDot, kGap],
};

/** For `stroke-dasharray`, in mm of paper. */
export function dashes(line: LineKind, weight_mm: number): string {
  const pattern = kPatterns[line];
  if (pattern.length === 0) return "none";
  return pattern.map((length) => Math.round(length * weight_mm * 1000) / 1000).join(" ");
}
