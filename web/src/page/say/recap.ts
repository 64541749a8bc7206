// The three questions of the page, answered from the numbers of the two trucks.

import type { LengthUnit } from "../../units.ts";
import { cannotText, caseOf, nameOf, other, type Pair, quoted } from "./pair.ts";
import { angle, kUnseenTurn_deg, kUnseenWay_mm, length } from "./words.ts";

export interface RecapNumbers {
  readonly wheel: Pair;
  readonly walk: Pair;
}

const kReason =
  "The steering wheel turns when raising the truck carries the steering bar’s end one way, while that bar itself would swing it another.";

function stillReason(numbers: RecapNumbers, which: "first" | "second"): string {
  const name = nameOf(numbers.wheel, which);
  const walk = numbers.walk.worst[which === "first" ? 0 : 1];
  if (walk === null) return `In ${name} the two ways agree.`;
  return Math.abs(walk) < kUnseenWay_mm
    ? `In ${name} both ends go straight up and down, so nothing pulls.`
    : `In ${name} both bars swing alike, so they agree though the axle moves.`;
}

export function whyAnswer(numbers: RecapNumbers): string {
  const found = caseOf(numbers.wheel, kUnseenTurn_deg);
  switch (found.is) {
    case "cannot":
      return `${kReason} ${cannotText(numbers.wheel, found.which)}`;
    case "both still":
      return `${kReason} Here neither turns. ${stillReason(numbers, "first")} ${stillReason(numbers, "second")}`;
    case "alike":
      return `${kReason} In both trucks the two ways part, and by the same.`;
    case "one still":
      return `${kReason} In ${nameOf(numbers.wheel, other(found.still))} the two ways part: ${angle(found.by)} of steering wheel. ${stillReason(numbers, found.still)}`;
    case "differ":
      return `${kReason} In both trucks the two ways part, less with ${nameOf(numbers.wheel, found.less)}.`;
  }
}

/** `plain` is the truck whose two plain bars agree, with what it does over its heights. */
export function equalAnswer(
  plain: {
    readonly name: string;
    readonly wheel_deg: number | null;
    readonly walk_mm: number | null;
  },
  aligned: string,
  unit: LengthUnit,
): string {
  const start = `Every steering wheel is centred at the height where the shop set it up (${aligned}). Away from it, plain bars keep it centred if both are equally long and lie side by side`;
  if (plain.wheel_deg === null || plain.walk_mm === null) return `${start}.`;
  const wheel =
    Math.abs(plain.wheel_deg) < kUnseenTurn_deg
      ? "it stays centred"
      : `it stays within ${angle(plain.wheel_deg)}`;
  return `${start}: in ${quoted(plain.name)} ${wheel} from bottom to top. The axle still moves ${length(plain.walk_mm, unit)} to the side.`;
}
