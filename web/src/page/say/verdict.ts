// What raising, bumps and leans do to two trucks, in a sentence each.

import type { LengthUnit } from "../../units";
import { cannotText, caseOf, nameOf, other, type Pair } from "./pair.ts";
import {
  angle,
  axlePlace,
  fineAngle,
  kUnseenTurn_deg,
  kUnseenWay_mm,
  side,
  wheelPlace,
} from "./words.ts";

/** A road-wheel angle that no driver notices. */
const kUnseenSteer_deg = 0.01;

function at(pair: Pair, which: "first" | "second"): number {
  return pair.worst[which === "first" ? 0 : 1] ?? Number.NaN;
}

/** The steering wheel over the heights, the truck going straight. */
export function wheelVerdict(pair: Pair): string {
  const found = caseOf(pair, kUnseenTurn_deg);
  switch (found.is) {
    case "cannot":
      return cannotText(pair, found.which);
    case "both still":
      return "From bottom to top both steering wheels stay centred.";
    case "alike":
      return `From bottom to top both steering wheels turn alike, by up to ${wheelPlace(found.by)}.`;
    case "one still":
      return `With ${nameOf(pair, other(found.still))} the steering wheel turns by up to ${wheelPlace(found.by)}. With ${nameOf(pair, found.still)} it stays centred.`;
    case "differ": {
      const more = other(found.less);
      return `Both steering wheels turn: by up to ${wheelPlace(at(pair, more))} with ${nameOf(pair, more)}, and by up to ${wheelPlace(at(pair, found.less))} with ${nameOf(pair, found.less)}.`;
    }
  }
}

/** The axle's way to the side over the heights. */
export function walkVerdict(pair: Pair, unit: LengthUnit): string {
  const found = caseOf(pair, kUnseenWay_mm);
  switch (found.is) {
    case "cannot":
      return cannotText(pair, found.which);
    case "both still":
      return "Neither axle moves sideways.";
    case "alike":
      return `Both axles move sideways alike, by up to ${axlePlace(found.by, unit)}.`;
    case "one still":
      return `The axle moves sideways by up to ${axlePlace(found.by, unit)} with ${nameOf(pair, other(found.still))}. With ${nameOf(pair, found.still)} it stays in the middle.`;
    case "differ": {
      const more = other(found.less);
      return `Both axles move sideways: by up to ${axlePlace(at(pair, more), unit)} with ${nameOf(pair, more)}, and by up to ${axlePlace(at(pair, found.less), unit)} with ${nameOf(pair, found.less)}.`;
    }
  }
}

/** A bump or a lean with the steering wheel held: what each step of it steers. `step` says "bump of 25 mm", `scale` makes it one of an inch. */
export function heldVerdict(pair: Pair, step: string, scale: number): string {
  const found = caseOf(pair, kUnseenSteer_deg);
  const steered = (rate: number) => fineAngle(rate * scale);
  switch (found.is) {
    case "cannot":
      return cannotText(pair, found.which);
    case "both still":
      return `Hold the steering wheel still, and a ${step} steers neither.`;
    case "alike":
      return `Hold the steering wheel still, and a ${step} steers both alike: ${steered(found.by)} at the worst height.`;
    case "one still":
      return `Hold the steering wheel still, and a ${step} steers the road wheels by up to ${steered(found.by)} with ${nameOf(pair, other(found.still))}. It does not steer ${nameOf(pair, found.still)}.`;
    case "differ": {
      const more = other(found.less);
      return `Hold the steering wheel still, and a ${step} steers both: the road wheels turn by up to ${steered(at(pair, more))} with ${nameOf(pair, more)}, and by up to ${steered(at(pair, found.less))} with ${nameOf(pair, found.less)}.`;
    }
  }
}

/** What the steering wheel does on the way from one pose to another, the truck going straight in both. */
export function wheelTurned(before_deg: number, now_deg: number): string {
  const turned = now_deg - before_deg;
  if (Math.abs(turned) < kUnseenTurn_deg) return "The wheel stays where it was.";
  return `The wheel turns ${angle(turned)} ${side(turned)}.`;
}
