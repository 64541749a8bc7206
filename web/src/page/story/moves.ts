// The chapters about a bump, a lean and a turn, and what may be said under them.

import { type LengthUnit, shownUnit } from "../../units.ts";
import { kBump, kLean, kTurn } from "../chapters/move_kinds.ts";
import { moveChapter } from "../chapters/moves.ts";
import type { Opening } from "../chapters/opening.ts";
import { pairOf } from "../comparison.ts";
import { liveText } from "../live.ts";
import { heldVerdict } from "../say/verdict.ts";
import type { Show } from "../trucks.ts";
import type { InUnits } from "./compared.ts";

/** The same two trucks over a bump, in a lean and in a turn. */
export function moveChapters(show: Show, answerIn: InUnits): Opening[] {
  const held = (name: string, step: () => string) =>
    liveText(show.reader, "verdict", () =>
      heldVerdict(pairOf(answerIn("mm"), name), step(), rateScale(name, show.reader.unit)),
    );
  return [
    moveChapter(show, kBump, {
      id: "bump",
      title: "Drive over a bump",
      says: ["The wheels go up and down under the truck. What do the hands on the wheel feel?"],
      after: held("bump_steer_deg_per_25mm", () =>
        show.reader.unit === "mm" ? "bump of 25 mm" : "bump of one inch",
      ),
    }),
    moveChapter(show, kLean, {
      id: "lean",
      title: "Lean over in a corner",
      says: ["The truck rolls to one side on its springs."],
      after: held("lean_steer_deg_per_deg", () => "lean of one degree"),
    }),
    moveChapter(show, kTurn, {
      id: "turn",
      title: "Turn a corner",
      says: ["Turn both steering wheels by the same amount. The front ends are seen from above."],
    }),
  ];
}

/** Rates over a bump are told for 25 mm, or for an inch. */
function rateScale(name: string, unit: LengthUnit): number {
  return name === "bump_steer_deg_per_25mm" ? shownUnit("deg per 25 mm", unit).scale : 1;
}
