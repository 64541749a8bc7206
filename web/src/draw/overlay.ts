// Laying one drawing over another: both know where the origin of the road's axes is, and how large they are drawn.

import type { Drawing } from "./drawing.ts";

/** Where a drawing lies on its paper. */
export type Frame = Pick<Drawing, "paper_mm" | "scale" | "origin_mm">;

/** The `transform` of an SVG group that takes what is drawn in `from` to where `to` would draw it; empty where that is the same. */
export function overlayTransform(from: Frame, to: Frame): string {
  const factor = to.scale / from.scale;
  const right = to.origin_mm[0] - factor * from.origin_mm[0];
  // SVG counts down from the paper's upper edge.
  const down = to.paper_mm[1] - to.origin_mm[1] - factor * (from.paper_mm[1] - from.origin_mm[1]);
  if (factor === 1 && right === 0 && down === 0) return "";
  return `translate(${right} ${down}) scale(${factor})`;
}
