// What the page draws over the engine's picture, from the engine's projected points and from nothing else: names, ways, arcs,
// equal lengths, a right angle. All in mm of paper, y up.

import type { Drawing, DrawnPoint, Place3 } from "../draw/drawing.ts";
import { inFrame, type Spot } from "./in_frame.ts";

export type Mark =
  | { readonly is: "dot" | "spot"; readonly at: Spot }
  | { readonly is: "name"; readonly at: Spot; readonly text: string; readonly towards: Towards }
  | { readonly is: "line"; readonly kind: LineLook; readonly spots: readonly Spot[] }
  | { readonly is: "way"; readonly from: Spot; readonly to: Spot; readonly text: string }
  | { readonly is: "circle"; readonly centre: Spot; readonly radius: number }
  | { readonly is: "equal"; readonly from: Spot; readonly to: Spot }
  | { readonly is: "square"; readonly corner: Spot; readonly one: Spot; readonly two: Spot };

export type Towards = "left" | "right" | "above" | "below";
export type LineLook = "arc" | "carried" | "helper" | "bar";

export function pointOf(drawing: Drawing, name: string): DrawnPoint | undefined {
  return drawing.points.find((point) => point.name === name);
}

export function spotOf(drawing: Drawing, name: string): Spot | undefined {
  return pointOf(drawing, name)?.at_mm;
}

/** Places in the frame, on the paper where the frame now is. */
export function onFrame(now: Drawing, places: readonly Place3[]): Spot[] {
  const place = inFrame(now);
  return place ? places.map(place) : [];
}

/** The middle of the axle: between the outermost of its points, which are the wheel centres. */
export function axleMiddle(drawing: Drawing): Spot | undefined {
  const onAxle = drawing.points.filter((point) => point.on === "axle");
  const first = onAxle[0];
  if (!first) return undefined;
  let least = first;
  let most = first;
  for (const point of onAxle) {
    if (point.at_mm[0] < least.at_mm[0]) least = point;
    if (point.at_mm[0] > most.at_mm[0]) most = point;
  }
  return between(least.at_mm, most.at_mm);
}

export function between(a: Spot, b: Spot): Spot {
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
}

export function distance(a: Spot, b: Spot): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}

/** `to` as seen from `from`, at a length. */
export function stepTowards(from: Spot, to: Spot, length: number): Spot {
  const whole = distance(from, to);
  if (whole === 0) return from;
  return [
    from[0] + ((to[0] - from[0]) * length) / whole,
    from[1] + ((to[1] - from[1]) * length) / whole,
  ];
}

export interface FoldPoints {
  readonly nearEnd: string;
  readonly guideEnd: string;
  readonly middle: string;
  readonly pivot: string;
}

/**
 * Why the near end of a guided bar runs straight: from the middle it is equally far to the near end, to the guide end and to the
 * pivot. So one circle about the middle goes through the three, the long bar is its diameter, and the corner at the pivot, which
 * stands on that circle, is square.
 */
export function foldMarks(drawing: Drawing, fold: FoldPoints): Mark[] {
  const near = spotOf(drawing, fold.nearEnd);
  const guide = spotOf(drawing, fold.guideEnd);
  const middle = spotOf(drawing, fold.middle);
  const pivot = spotOf(drawing, fold.pivot);
  if (!near || !guide || !middle || !pivot) return [];
  return [
    { is: "circle", centre: middle, radius: distance(middle, pivot) },
    {
      is: "line",
      kind: "helper",
      spots: [
        stepTowards(pivot, near, -0.15 * distance(pivot, near)),
        stepTowards(pivot, near, 1.5 * distance(pivot, near)),
      ],
    },
    {
      is: "line",
      kind: "helper",
      spots: [pivot, stepTowards(pivot, guide, 1.12 * distance(pivot, guide))],
    },
    { is: "line", kind: "bar", spots: [near, guide] },
    { is: "line", kind: "bar", spots: [middle, pivot] },
    { is: "equal", from: middle, to: near },
    { is: "equal", from: middle, to: guide },
    { is: "equal", from: middle, to: pivot },
    { is: "square", corner: pivot, one: guide, two: near },
    ...[near, guide, middle, pivot].map((at): Mark => ({ is: "dot", at })),
  ];
}
