// What one truck does in the picture at hand, in a sentence, from the values of its pose.

import type { LooseMotion } from "../../engine.ts";
import type { LengthUnit } from "../../units.ts";
import {
  angle,
  axlePlace,
  fineAngle,
  heading,
  kUnseenTurn_deg,
  kUnseenWay_mm,
  length,
  side,
  wheelPlace,
} from "./words.ts";

function raised(height_mm: number, unit: LengthUnit): string {
  if (Math.abs(height_mm) < kUnseenWay_mm) return "At the height where it was set up";
  return `${height_mm > 0 ? "Raised" : "Lowered"} by ${length(height_mm, unit)}`;
}

/** `height_mm` from where the truck was set up. */
export function axleMoved(height_mm: number, walk_mm: number, unit: LengthUnit): string {
  const where = raised(height_mm, unit);
  if (Math.abs(walk_mm) < kUnseenWay_mm) return `${where}: the axle is in the middle.`;
  return `${where}: the axle has moved ${axlePlace(walk_mm, unit)}.`;
}

/** The truck rolls straight ahead: what the steering wheel and the axle do. */
export function rolling(
  height_mm: number,
  wheel_deg: number,
  walk_mm: number,
  unit: LengthUnit,
): string {
  const axle =
    Math.abs(walk_mm) < kUnseenWay_mm
      ? "the axle is in the middle"
      : `the axle has moved ${axlePlace(walk_mm, unit)}`;
  const wheel =
    Math.abs(wheel_deg) < kUnseenTurn_deg
      ? "the steering wheel is centred"
      : `the steering wheel stands ${wheelPlace(wheel_deg)}`;
  const both = Math.abs(walk_mm) >= kUnseenWay_mm && Math.abs(wheel_deg) < kUnseenTurn_deg;
  return `${raised(height_mm, unit)}, going straight: ${axle}${both ? ", and still " : ", and "}${wheel}.`;
}

/** The steering wheel is held still: what the road wheels do. */
export function held(height_mm: number, steer_deg: number, unit: LengthUnit): string {
  const where = `${raised(height_mm, unit)}, the steering wheel held still`;
  if (Math.abs(steer_deg) < 0.05) return `${where}: the road wheels point straight ahead.`;
  return `${where}: the road wheels point ${heading(steer_deg)}. The truck steers itself.`;
}

/** What a bump does with the steering wheel held, told from road-wheel angles without and with it. */
export function bumped(before_deg: number, now_deg: number, way: string): string {
  const turned = now_deg - before_deg;
  if (Math.abs(turned) < 0.05) return `Hold the wheel still: ${way} does not steer the truck.`;
  return `Hold the wheel still: ${way} turns the road wheels ${fineAngle(turned)} ${side(turned)}.`;
}

/** How far two bars' arcs agree: what the chapter about them may say. */
export function arcsAgree(
  wheel_deg: number | null,
  walk_mm: number | null,
  unit: LengthUnit,
): string {
  if (wheel_deg === null || walk_mm === null) {
    return "This truck cannot reach every height, so its arcs are drawn only as far as they go.";
  }
  const wheel =
    Math.abs(wheel_deg) < kUnseenTurn_deg
      ? "the steering wheel stays centred"
      : `the steering wheel turns by no more than ${angle(wheel_deg)}`;
  const axle =
    Math.abs(walk_mm) < kUnseenWay_mm
      ? "and the axle stays too."
      : `but the axle still moves, by up to ${length(walk_mm, unit)}.`;
  const how = Math.abs(wheel_deg) < kUnseenTurn_deg ? "" : "These agree nearly. ";
  return `${how}From bottom to top ${wheel}, ${axle}`;
}

/** Guided bars, going straight. */
export function folded(
  height_mm: number,
  wheel_deg: number,
  walk_mm: number,
  unit: LengthUnit,
): string {
  const still =
    Math.abs(walk_mm) < kUnseenWay_mm && Math.abs(wheel_deg) < kUnseenTurn_deg
      ? "the axle is in the middle and the steering wheel is centred."
      : `the axle is ${axlePlace(walk_mm, unit)}, the steering wheel ${wheelPlace(wheel_deg)}.`;
  return `${raised(height_mm, unit)}, going straight: ${still}`;
}

/** Quantities by which a loose motion would be felt. */
const kFelt = [
  "steering_wheel",
  "mean_steer",
  "steer_left",
  "steer_right",
  "axle_walk",
  "axle_yaw",
];

/** A loose part pushed over by so much. */
export function loosened(turned_deg: number, motion: Pick<LooseMotion, "effects">): string {
  const pushed =
    Math.abs(turned_deg) < 0.5
      ? "Upright."
      : `Turned over by ${angle(turned_deg)}, and nothing holds it.`;
  const felt = motion.effects.some(({ name }) => kFelt.some((key) => name.startsWith(key)));
  return felt
    ? `${pushed} The steering or the axle moves with it: that is play.`
    : `${pushed} Steering wheel and axle do not move with it here, but it swings.`;
}
