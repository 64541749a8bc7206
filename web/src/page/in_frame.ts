// From places in the frame to the paper, by what the engine tells of a point that rides on the frame.

import type { Drawing, DrawnPoint, Place3 } from "../draw/drawing.ts";

/** A place on the paper [mm], y up. */
export type Spot = readonly [number, number];

type InFrame = (place: Place3) => Spot;

function dot(a: Place3, b: Place3): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function onAxis(way: Place3, axis: Place3): number {
  return dot(way, axis) / dot(axis, axis);
}

/** Rides on the frame, is no mirrored point, and lies in the picture's plane both ways. */
function isAnchor(point: DrawnPoint): boolean {
  return point.on === "frame" && point.sets === point.name && dot(point.up, point.up) > 0;
}

/** Where the drawing has a place that is fixed in the frame: `across` and `up` of a frame point are the paper's axes there. */
export function inFrame(drawing: Drawing): InFrame | undefined {
  const anchor = drawing.points.find(isAnchor);
  if (!anchor) return undefined;
  const { at_mm, measured_mm, across, up } = anchor;
  return (place) => {
    const way: Place3 = [
      place[0] - measured_mm[0],
      place[1] - measured_mm[1],
      place[2] - measured_mm[2],
    ];
    return [at_mm[0] + onAxis(way, across), at_mm[1] + onAxis(way, up)];
  };
}
