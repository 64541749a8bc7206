// What the chapters know of the trucks that they show, before any slider is moved.

import type { Engine, ViewAnswer } from "../engine.ts";
import { askView } from "./ask.ts";
import type { Reader } from "./reader.ts";

export interface Truck {
  readonly file: string;
  readonly name: string;
  readonly heights: readonly [number, number];
  readonly aligned: number;
  /** Droop, bump. */
  readonly travel: readonly [number, number];
  readonly lean: number;
  /** Right, left; where no gear is described the road wheels are turned by a bar of the shop's own. */
  readonly steering: readonly [number, number] | undefined;
  /** Its points by name, as measured. */
  readonly points: ReadonlyMap<string, readonly [number, number, number]>;
}

/** What a chapter needs to be made. */
export interface Show {
  readonly engine: Engine;
  readonly reader: Reader;
  readonly pair: readonly [Truck, Truck];
}

function truckOf(file: string, answer: ViewAnswer): Truck {
  return {
    file,
    name: answer.truck,
    heights: answer.height_range_mm,
    aligned: answer.aligned_mm,
    travel: answer.travel_mm,
    lean: answer.lean_limit_deg,
    steering: answer.steering_wheel_limit_deg ?? undefined,
    points: new Map(answer.points.map((point) => [point.name, point.measured_mm])),
  };
}

export async function meetTruck(engine: Engine, file: string): Promise<Truck> {
  return truckOf(file, await askView(engine, file, {}, []));
}

/** The heights that both can be asked for: from the lower bottom to the higher top, so that what one cannot do is seen. */
export function heightsOf(pair: readonly [Truck, Truck]): [number, number] {
  const [a, b] = pair;
  return [Math.min(a.heights[0], b.heights[0]), Math.max(a.heights[1], b.heights[1])];
}
