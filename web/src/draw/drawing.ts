// A drawing as the engine composes it (api/README.md, "view"): mm of paper, origin lower left, x right, y up.

export type ViewName = "front" | "side" | "top" | "pictorial";

export type LineKind = "continuous" | "dashed" | "chain" | "double dot";

export interface Layer {
  readonly name: string;
  readonly line: LineKind;
  readonly weight_mm: number;
}

export interface DrawnText {
  readonly at: readonly [number, number];
  readonly text: string;
  readonly height_mm: number;
  readonly anchor: "start" | "middle" | "end";
  readonly turn_deg: number;
}

/** One stroke, silhouette or text; exactly one of the last four is there. */
export interface Item {
  readonly layer: string;
  readonly part: string;
  /** x0, y0, x1, y1, ... */
  readonly line?: readonly number[];
  /** Centre x, y, radius, from and to in degrees anticlockwise; 0 to 360 is a circle. */
  readonly arc?: readonly [number, number, number, number, number];
  /** A closed silhouette; the farthest of them comes first. */
  readonly area?: readonly number[];
  readonly text?: DrawnText;
}

export type Place3 = readonly [number, number, number];

/** A point of the truck file where it is drawn, with what a drag of it changes. */
export interface DrawnPoint {
  readonly name: string;
  readonly on: string;
  readonly at_mm: readonly [number, number];
  /** The file's entry that a drag changes: a mirrored point names its origin. */
  readonly sets: string;
  /** The point that its coordinates count from; absent: the origin. */
  readonly from?: string;
  /** That entry's coordinates. */
  readonly measured_mm: Place3;
  /** Change of that entry's coordinates per mm of paper to the right, and up. */
  readonly across: Place3;
  readonly up: Place3;
}

export interface Drawing {
  readonly view: ViewName | string;
  readonly words: string;
  readonly paper_mm: readonly [number, number];
  /** Paper mm per truck mm. */
  readonly scale: number;
  /** Where the origin of the road's axes is: with the scale, what lays one drawing over another. */
  readonly origin_mm: readonly [number, number];
  /** In the order in which they lie on the paper, the lowest first. */
  readonly layers: readonly Layer[];
  readonly items: readonly Item[];
  readonly points: readonly DrawnPoint[];
}
