// What the chapters about one truck share: where its pictures look, and the ways of points over the heights.

import type { Place3 } from "../../draw/drawing.ts";
import type { PoseInputs, ViewWanted } from "../../engine.ts";
import { askView } from "../ask.ts";
import { type Box, boxAround } from "../camera.ts";
import type { Show, Truck } from "../trucks.ts";

/** Heights that the way of a point is drawn through. */
const kPlaces = 17;

/** Where a point is in the frame, at heights from bottom to top; what cannot be had is left out. */
export async function wayOver(
  show: Show,
  truck: Truck,
  point: string,
  pose: PoseInputs,
): Promise<Place3[]> {
  const [bottom, top] = truck.heights;
  const places: Place3[] = [];
  for (let i = 0; i < kPlaces; i += 1) {
    const height_mm = bottom + ((top - bottom) * i) / (kPlaces - 1);
    const answer = await askView(show.engine, truck.file, { ...pose, height_mm }, []);
    const found = answer.points.find(({ name }) => name === point);
    if (found && answer.complete) places.push(found.place_mm);
  }
  return places;
}

/** Around the points named, from the lowest height to the highest. */
export async function boxOver(
  show: Show,
  truck: Truck,
  wanted: ViewWanted,
  names: readonly string[],
  margin_mm: number,
): Promise<Box | undefined> {
  const ends = truck.heights.map((height_mm) =>
    askView(show.engine, truck.file, { height_mm }, [wanted]),
  );
  const drawings = (await Promise.all(ends)).flatMap(({ views }) => views);
  return boxAround(drawings, names, margin_mm);
}
