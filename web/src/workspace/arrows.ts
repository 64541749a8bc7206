// The points that matter most as arrows on a view: which way a coordinate grows, longer where a millimetre does more, each with
// its number in the list.

import type { Drawing, DrawnPoint } from "../draw/drawing.ts";
import type { Influence } from "../engine.ts";
import { setAttribute, setText, svgElement } from "./dom.ts";

const kCoordinates = ["x", "y", "z"] as const;

// [mm of paper]
const kShortest = 5;
const kLongest = 13;
/** So far from the edge of the paper an arrow ends, for its number. */
const kEdge = 5;
/** A coordinate that shows by less than this share of its length points at the reader. */
const kEdgeOn = 0.15;

export interface Arrow {
  readonly rank: number;
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
}

/** Which way on the paper a coordinate of the point's entry grows, of length 1; nothing where it points at the reader. */
export function wayOnPaper(
  point: Pick<DrawnPoint, "across" | "up">,
  coordinate: "x" | "y" | "z",
): readonly [number, number] | undefined {
  const i = kCoordinates.indexOf(coordinate);
  // `across` and `up` are perpendicular and equally long, so that a coordinate's own components in them are its direction.
  const x = point.across[i] as number;
  const y = point.up[i] as number;
  const length = Math.hypot(x, y);
  if (length < kEdgeOn * Math.hypot(...point.across)) return undefined;
  return [x / length, y / length];
}

/** How far it is along a way to the edge of the paper. */
function roomFrom(
  [width, height]: readonly [number, number],
  x: number,
  y: number,
  [right, up]: readonly [number, number],
): number {
  const along = (from: number, step: number, size: number) => {
    if (step === 0) return Number.POSITIVE_INFINITY;
    return ((step > 0 ? size - kEdge : kEdge) - from) / step;
  };
  return Math.min(along(x, right, width), along(y, up, height));
}

export function arrowsFor(drawing: Drawing, influences: readonly Influence[]): Arrow[] {
  const strongest = Math.max(...influences.map((one) => Math.abs(one.per_mm)));
  const arrows: Arrow[] = [];
  influences.forEach((influence, i) => {
    const point = drawing.points.find((one) => one.name === influence.name);
    if (!point || influence.coordinate === "length") return;
    const way = wayOnPaper(point, influence.coordinate);
    if (!way) return;
    const share = Math.abs(influence.per_mm) / strongest;
    const [x, y] = point.at_mm;
    const room = Math.max(kShortest, roomFrom(drawing.paper_mm, x, y, way));
    const length = Math.min(kShortest + (kLongest - kShortest) * share, room);
    arrows.push({ rank: i + 1, from: [x, y], to: [x + way[0] * length, y + way[1] * length] });
  });
  return arrows;
}

const kHead = 2.2;

export class Arrows {
  readonly element = svgElement("g", { class: "arrows", "aria-hidden": "true" });
  private shown: { readonly drawing: Drawing; readonly of: readonly Influence[] } | undefined;

  show(drawing: Drawing | undefined, influences: readonly Influence[]): void {
    if (!drawing || influences.length === 0) {
      this.element.replaceChildren();
      this.shown = undefined;
      return;
    }
    if (this.shown?.drawing === drawing && this.shown.of === influences) return;
    this.shown = { drawing, of: influences };
    const height = drawing.paper_mm[1];
    this.element.replaceChildren(
      ...arrowsFor(drawing, influences).map((arrow) => this.draw(arrow, height)),
    );
  }

  private draw({ rank, from, to }: Arrow, height: number): SVGGElement {
    const [x0, y0] = [from[0], height - from[1]];
    const [x1, y1] = [to[0], height - to[1]];
    const length = Math.hypot(x1 - x0, y1 - y0);
    const [ux, uy] = [(x1 - x0) / length, (y1 - y0) / length];
    const back = (side: number) =>
      `${x1 - ux * kHead - side * uy * kHead * 0.35} ${y1 - uy * kHead + side * ux * kHead * 0.35}`;
    const label = svgElement("text", { class: "arrow-rank", "text-anchor": "middle" });
    setText(label, String(rank));
    setAttribute(label, "x", x1 + ux * 2.5);
    setAttribute(label, "y", y1 + uy * 2.5 + 1.2);
    return svgElement(
      "g",
      { class: "arrow" },
      svgElement("path", { class: "arrow-shaft", d: `M${x0} ${y0}L${x1} ${y1}` }),
      svgElement("path", { class: "arrow-head", d: `M${x1} ${y1}L${back(1)}L${back(-1)}Z` }),
      label,
    );
  }
}
