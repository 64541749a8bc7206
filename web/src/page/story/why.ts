// The chapters that say why, in order.

import type { Cast } from "../cast.ts";
import { foldChapter } from "../chapters/fold.ts";
import { oneBarChapter } from "../chapters/one_bar.ts";
import type { Opening } from "../chapters/opening.ts";
import { steerChapter } from "../chapters/steer.ts";
import { twoBarsChapter } from "../chapters/two_bars.ts";
import { liveText } from "../live.ts";
import { arcsAgree } from "../say/story.ts";
import type { Show } from "../trucks.ts";

export function whyChapters(show: Show, cast: Cast): Opening[] {
  return [
    steerChapter(show, cast.differ),
    oneBarChapter(show, cast.differ),
    twoBarsChapter(show, cast.agree, {
      id: "agree",
      kicker: "Why? 3",
      title: "Two bars that agree",
      says: [
        "The steering bar swings too. If both bars are equally long and lie side by side, they swing alike: the steering bar’s end goes just where the axle carries it. Nothing pulls on the steering.",
        liveText(show.reader, "", () =>
          arcsAgree(cast.agree.wheel_deg, cast.agree.walk_mm, show.reader.unit),
        ),
      ],
      withBump: false,
    }),
    twoBarsChapter(show, cast.differ, {
      id: "differ",
      kicker: "Why? 4",
      title: "Two bars that differ",
      says: [
        "Here the bars differ, so they do not swing alike: the axle carries the steering bar’s end one way, the bar itself would swing it another. Something has to give.",
        "If the tyres win, the truck goes straight and the steering wheel turns. If the hands win, the wheel stays and the truck steers. A bump does it too, only quickly.",
      ],
      withBump: true,
    }),
    foldChapter(show, cast.guided, "how"),
    foldChapter(show, cast.guided, "why"),
  ];
}
