// What a bar that folds costs, from the engine's numbers for a truck that has one and one to set beside it.

import type { CheckAnswer, CompareAnswer, Sweep } from "../../engine.ts";
import { type LengthUnit, toMm } from "../../units.ts";
import { type Pair, quoted } from "./pair.ts";
import { angle, fineAngle, length, list } from "./words.ts";

export interface Cost {
  readonly title: string;
  readonly text: string;
}

type SweptTruck = Pick<Sweep<"compare">, "truck" | "extremes" | "points_that_matter">;

function spanOf(sweep: SweptTruck, name: string): number {
  const extreme = sweep.extremes.find((found) => found.name === name);
  return extreme ? extreme.highest.value - extreme.lowest.value : 0;
}

/** A guide end on a rocker has a way too, but it turns about a pin. */
export function slidesOf(sweep: Pick<SweptTruck, "extremes">): string[] {
  const names = sweep.extremes.map(({ name }) => name);
  const turn = (slide: string) => slide.replace(/^slide\.(.*)_mm$/, "turn.$1_rocker_deg");
  return names.filter((name) => name.startsWith("slide.") && !names.includes(turn(name)));
}

export function slideCost(sweep: SweptTruck, unit: LengthUnit): Cost | undefined {
  const spans = slidesOf(sweep).map((name) => spanOf(sweep, name));
  if (spans.length === 0) return undefined;
  const ways = list(spans.map((span) => length(span, unit)));
  const what = spans.length === 1 ? "One end slides" : "Ends slide";
  return {
    title: "Something slides",
    text: `${what} on a guide, by up to ${ways} over everything the truck may do. A plain bar has nothing that slides, wears there or needs keeping clean.`,
  };
}

export function jointCost(guided: CheckAnswer, plain: CheckAnswer): Cost | undefined {
  const more = guided.counts.joints - plain.counts.joints;
  if (more <= 0) return undefined;
  return {
    title: "More joints",
    text: `${quoted(guided.truck)} has ${guided.counts.joints} joints, ${quoted(plain.truck)} ${plain.counts.joints}. Each can wear.`,
  };
}

export function tiltCost(answer: Pick<CompareAnswer, "comparison">, pair: Pair): Cost | undefined {
  const row = answer.comparison.find(({ name }) => name === "tilt_deg");
  const [a, b] = row?.worst ?? [];
  if (typeof a !== "number" || typeof b !== "number") return undefined;
  return {
    title: "Joints must swivel far",
    text: `The joint that tilts most does so by ${angle(b)} in ${quoted(pair.names[1])} and ${angle(a)} in ${quoted(pair.names[0])}. Joints have to be bought for that.`,
  };
}

/** A truck's touchiest place: what one small error there does to the steering wheel, where it is worst. */
function touchiest(sweep: SweptTruck, unit: LengthUnit): number | undefined {
  const influence = sweep.points_that_matter?.build_errors[0];
  return influence && Math.abs(influence.per_mm) * (unit === "mm" ? 1 : toMm(0.1, "inch"));
}

export function buildCost(
  guided: SweptTruck,
  plain: SweptTruck,
  unit: LengthUnit,
): Cost | undefined {
  const of = (sweep: SweptTruck) => touchiest(sweep, unit);
  const [g, p] = [of(guided), of(plain)];
  if (g === undefined) return undefined;
  const error = unit === "mm" ? "One millimetre" : "A tenth of an inch";
  const beside = p === undefined ? "" : ` With ${quoted(plain.truck)} it would be ${angle(p)}.`;
  return {
    title: "It must be built exactly",
    text: `${error} off at the touchiest place turns the steering wheel of ${quoted(guided.truck)} by up to ${angle(g)}.${beside}`,
  };
}

export function leanCost(answer: Pick<CompareAnswer, "comparison">, pair: Pair): Cost | undefined {
  const row = answer.comparison.find(({ name }) => name === "lean_steer_deg_per_deg");
  const [a, b] = row?.worst ?? [];
  if (typeof a !== "number" || typeof b !== "number") return undefined;
  return {
    title: "A lean is not free",
    text: `With the steering wheel held still, each degree of lean steers ${quoted(pair.names[1])} by up to ${fineAngle(b)}, and ${quoted(pair.names[0])} by up to ${fineAngle(a)}.`,
  };
}

export function looseCost(check: CheckAnswer): Cost {
  const moving = check.loose.filter((motion) => !motion.idle);
  const title = "Nothing may flop over";
  if (moving.length > 0) {
    return {
      title,
      text: `In ${quoted(check.truck)} this is loose: ${list(moving.map(({ text }) => text))}.`,
    };
  }
  const missing = "Below is a made-up truck that lacks the part which sees to that.";
  const idle = check.loose.length;
  const spins =
    idle === 0
      ? "nothing can move by itself"
      : idle === 1
        ? "one bar can turn about its own line, which moves nothing else"
        : "some bars can turn about their own lines, which moves nothing else";
  return {
    title,
    text: `In ${quoted(check.truck)} ${spins}. ${missing}`,
  };
}
