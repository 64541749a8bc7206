// What a bar that folds costs: a list, each line from the engine's numbers.

import type { CheckAnswer, CompareAnswer, SweepAnswer } from "../../engine.ts";
import type { LengthUnit } from "../../units.ts";
import { chapter } from "../chapter.ts";
import { pairOf } from "../comparison.ts";
import { html } from "../dom.ts";
import { liveBlock } from "../live.ts";
import type { Reader } from "../reader.ts";
import {
  buildCost,
  type Cost,
  jointCost,
  leanCost,
  looseCost,
  slideCost,
  tiltCost,
} from "../say/costs.ts";

/** A truck without and one with guided bars, in that order. */
export interface CostNumbers {
  readonly answer: CompareAnswer;
  readonly checks: readonly [CheckAnswer, CheckAnswer];
  readonly sweeps: readonly [SweepAnswer, SweepAnswer];
  /** Said under the list: whose numbers they are. */
  readonly whose: string;
}

function costsOf({ answer, checks, sweeps }: CostNumbers, unit: LengthUnit): Cost[] {
  const [plain, guided] = sweeps;
  const pair = pairOf(answer, "tilt_deg");
  const found = [
    slideCost(guided, unit),
    tiltCost(answer, pair),
    jointCost(checks[1], checks[0]),
    leanCost(answer, pair),
    buildCost(guided, plain, unit),
    looseCost(checks[1]),
  ];
  return found.filter((cost) => cost !== undefined);
}

export function costsChapter(reader: Reader, numbers: CostNumbers): HTMLElement {
  return chapter({
    id: "costs",
    title: "What that costs",
    says: ["A bar that folds is no gift. This is what it asks for."],
    shows: [
      liveBlock(reader, "costs", () =>
        costsOf(numbers, reader.unit).map((cost) =>
          html("div", { class: "cost" }, html("h3", {}, cost.title), html("p", {}, cost.text)),
        ),
      ),
    ],
    caption: numbers.whose,
  });
}
