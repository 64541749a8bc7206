// What is loose, moved by hand: the bracket on the tie rod with nothing that keeps it upright.

import type { Drawing } from "../../draw/drawing.ts";
import type { LooseMotion } from "../../engine.ts";
import { askView, fromTheLeft } from "../ask.ts";
import { type Box, boxAround, wholePaper } from "../camera.ts";
import { kGuidedSteering, kPlainPoints } from "../cast.ts";
import { chapter, controls } from "../chapter.ts";
import { liveSlider } from "../height_slider.ts";
import type { Spot } from "../in_frame.ts";
import { distance, type Mark, spotOf, stepTowards } from "../marks.ts";
import { Picture } from "../picture.ts";
import { Play } from "../play.ts";
import { refusalNote } from "../say/refusal.ts";
import { loosened } from "../say/story.ts";
import { angle } from "../say/words.ts";
import { type Answers, type Display, type Exhibit, Stage } from "../stage.ts";
import type { Show, Truck } from "../trucks.ts";
import type { Opening } from "./opening.ts";

interface State {
  readonly turned: number;
}

const kMost_deg = 45;
const kTelling_deg = 35;
const kRatio = 1.35;
const kView = fromTheLeft(kRatio);
const kMargin_mm = 190;

/** A tie rod runs across the truck: from the left its ball is all of it, and its bracket stands up to the pivot. */
const kTieRod = kPlainPoints.tieRodLeft;
const kBracket = kGuidedSteering.pivot;

function marks(drawing: Drawing): Mark[] {
  const rod = spotOf(drawing, kTieRod);
  const bracket = spotOf(drawing, kBracket);
  if (!rod || !bracket) return [];
  const upright: Spot = [rod[0], rod[1] + 2 * distance(rod, bracket)];
  return [
    { is: "line", kind: "helper", spots: [rod, upright] },
    {
      is: "line",
      kind: "bar",
      spots: [rod, stepTowards(rod, bracket, 2 * distance(rod, bracket))],
    },
    { is: "dot", at: rod },
    { is: "name", at: rod, text: "tie rod, seen from its end", towards: "below" },
  ];
}

class Loose implements Exhibit<State> {
  private box: Box | undefined;

  constructor(
    private readonly show: Show,
    private readonly truck: Truck,
    private readonly motion: LooseMotion,
  ) {}

  async answers({ turned }: State): Promise<Answers> {
    const loose = { name: this.motion.name, angle_deg: turned };
    const pose = { height_mm: this.truck.heights[1], loose };
    const answer = await askView(this.show.engine, this.truck.file, pose, [kView]);
    this.box ??= boxAround(answer.views, [kTieRod, kBracket], kMargin_mm);
    return [answer];
  }

  display(): Display<State> {
    const picture = new Picture({
      name: "Tie rod with its bracket and the folding bar, seen from the left",
      ratio: kRatio,
      marked: ["tie_rod", "guided_steering"],
    });
    return {
      element: picture.element,
      show: (_, [answer]) => {
        const drawing = answer?.views[0];
        if (!answer || !drawing) return;
        picture.show(
          drawing,
          this.box ?? wholePaper(drawing, kRatio),
          marks(drawing),
          refusalNote(answer),
        );
      },
    };
  }

  words({ turned }: State): string {
    return loosened(turned, this.motion);
  }
}

export function looseChapter(
  show: Show,
  truck: Truck,
  motion: LooseMotion,
  whose: string,
): Opening {
  const stage = new Stage<State>(
    new Loose(show, truck, motion),
    { first: { turned: kTelling_deg }, telling: { turned: kTelling_deg }, wordsShown: true },
    show.reader,
  );
  const slider = liveSlider(show.reader, {
    name: "Push it over",
    min: -kMost_deg,
    max: kMost_deg,
    value: kTelling_deg,
    say: (value) => (Math.abs(value) < 0.5 ? "upright" : angle(value)),
  });
  slider.onChange((turned) => void stage.change({ turned }));
  const play = new Play(slider, { play: "Play: push it", stop: "Stop", step: "Next place" });
  return {
    element: chapter({
      id: "loose",
      title: "Leave one part out, and it flops",
      says: [
        "The sliding guide sits in a bracket on the tie rod, and a tie rod can turn about its own line. Height, lean and steering wheel are all held here, and still this moves.",
      ],
      shows: [stage.element, controls(slider.element, play.button)],
      caption: `${whose} In the program’s words: ${motion.text}.`,
    }),
    open: () => stage.open(),
  };
}
