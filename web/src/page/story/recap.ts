// The three questions of the page with the answers that the numbers give.

import type { CompareAnswer } from "../../engine.ts";
import type { Cast } from "../cast.ts";
import { recapChapter } from "../chapters/recap.ts";
import { pairOf } from "../comparison.ts";
import { liveText } from "../live.ts";
import { equalAnswer, whyAnswer } from "../say/recap.ts";
import { walkVerdict } from "../say/verdict.ts";
import { length } from "../say/words.ts";
import type { Show } from "../trucks.ts";
import { kWalk, kWheel } from "./compared.ts";

export function recap(show: Show, given: CompareAnswer, cast: Cast): HTMLElement {
  const { reader } = show;
  const numbers = { wheel: pairOf(given, kWheel), walk: pairOf(given, kWalk) };
  const { truck, wheel_deg, walk_mm } = cast.agree;
  const aligned = show.pair[0].aligned;
  return recapChapter([
    {
      question: "Why does a steering wheel turn when the truck is raised?",
      answer: liveText(reader, "", () => whyAnswer(numbers)),
    },
    {
      question: "What happens to the axle?",
      answer: liveText(reader, "", () => walkVerdict(numbers.walk, reader.unit)),
    },
    {
      question: "When are plain bars as good?",
      answer: liveText(reader, "", () =>
        equalAnswer(
          { name: truck.name, wheel_deg, walk_mm },
          length(aligned, reader.unit),
          reader.unit,
        ),
      ),
    },
  ]);
}
