// From the pointer to the drawn point under it.

import type { DrawnPoint } from "./drawing.ts";

export interface PaperPlace {
  readonly x: number;
  readonly y: number;
}

/** A place of the window in the user units of a sheet: mm to the right and DOWN. Nothing where the sheet is not shown. */
export function onSheet(
  svg: SVGSVGElement,
  clientX: number,
  clientY: number,
): PaperPlace | undefined {
  const matrix = svg.getScreenCTM();
  if (!matrix) return undefined;
  const { x, y } = new DOMPoint(clientX, clientY).matrixTransform(matrix.inverse());
  return { x, y };
}

/** The nearest of `points` within `reach_mm` of a place; of two equally near the one drawn last. */
export function nearestPoint<P extends Pick<DrawnPoint, "at_mm">>(
  points: readonly P[],
  at: PaperPlace,
  reach_mm: number,
): P | undefined {
  let nearest: P | undefined;
  let least = reach_mm;
  for (const point of points) {
    const distance = Math.hypot(point.at_mm[0] - at.x, point.at_mm[1] - at.y);
    if (distance <= least) {
      least = distance;
      nearest = point;
    }
  }
  return nearest;
}
