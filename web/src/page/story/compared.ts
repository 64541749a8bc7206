// Comparisons as the story asks for them.

import type { CompareAnswer, Engine } from "../../engine.ts";
import type { LengthUnit } from "../../units.ts";
import { ask } from "../ask.ts";

export const kWheel = "steering_wheel_off_centre_deg";
export const kWalk = "axle_walk_side_mm";

/** A comparison with its sentences in either unit. */
export type InUnits = (unit: LengthUnit) => CompareAnswer;

export function compareIn(
  engine: Engine,
  files: readonly string[],
  units: LengthUnit,
): Promise<CompareAnswer> {
  return ask(engine, { ask: "compare", files, units });
}

export async function compareInBoth(engine: Engine, files: readonly string[]): Promise<InUnits> {
  const mm = await compareIn(engine, files, "mm");
  const inch = await compareIn(engine, files, "inch");
  return (unit) => (unit === "mm" ? mm : inch);
}
