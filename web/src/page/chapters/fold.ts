// A bar that folds: why its end runs straight, first where it holds the axle, then where it steers.

import type { Drawing } from "../../draw/drawing.ts";
import { askView, fromBehind } from "../ask.ts";
import type { Box } from "../camera.ts";
import { castText, kGuidedSteering, kLocator, type Role } from "../cast.ts";
import { chapter, controls } from "../chapter.ts";
import { Choice } from "../choice.ts";
import { heightSlider } from "../height_slider.ts";
import { type FoldPoints, foldMarks, type Mark, spotOf } from "../marks.ts";
import { Picture } from "../picture.ts";
import { refusalNote } from "../say/refusal.ts";
import { folded } from "../say/story.ts";
import { type Answers, type Display, type Exhibit, Stage } from "../stage.ts";
import type { Show } from "../trucks.ts";
import type { Opening } from "./opening.ts";
import { boxOver } from "./single.ts";

type Bar = "axle" | "steering";

interface State {
  readonly height: number;
  readonly bar: Bar;
}

/** First how it moves, then why. */
export type FoldShows = "how" | "why";

const kRatio = 1.2;
const kView = fromBehind(kRatio);
const kMargin_mm = 240;

const kPoints: Readonly<Record<Bar, FoldPoints>> = { axle: kLocator, steering: kGuidedSteering };

const kNames: Readonly<Record<FoldShows, string>> = {
  how: "A bar that folds between frame and axle, seen from behind",
  why: "A bar that folds, seen from behind, with three equal lengths, the circle through their ends and a right angle",
};

/** The way that the free end takes, and the joints. */
function moveMarks(drawing: Drawing, points: FoldPoints): Mark[] {
  return foldMarks(drawing, points).filter(({ is }) => is === "line" || is === "dot");
}

function names(drawing: Drawing, points: FoldPoints): Mark[] {
  const near = spotOf(drawing, points.nearEnd);
  const guide = spotOf(drawing, points.guideEnd);
  const pivot = spotOf(drawing, points.pivot);
  if (!near || !guide || !pivot) return [];
  return [
    { is: "name", at: near, text: "this end runs straight", towards: "above" },
    { is: "name", at: pivot, text: "this pivot", towards: "below" },
    { is: "name", at: guide, text: "this end slides", towards: "below" },
  ];
}

class Fold implements Exhibit<State> {
  private box: Box | undefined;

  constructor(
    private readonly show: Show,
    private readonly role: Role,
    private readonly shows: FoldShows,
  ) {}

  async prepare(): Promise<void> {
    const points = [...Object.values(kLocator), ...Object.values(kGuidedSteering)];
    this.box = await boxOver(this.show, this.role.truck, kView, points, kMargin_mm);
  }

  async answers({ height }: State): Promise<Answers> {
    return [await askView(this.show.engine, this.role.truck.file, { height_mm: height }, [kView])];
  }

  display(): Display<State> {
    const picture = new Picture({
      name: kNames[this.shows],
      ratio: kRatio,
      quiet: this.shows === "why",
      marked: ["locator"],
    });
    return {
      element: picture.element,
      show: ({ bar }, [answer]) => {
        const drawing = answer?.views[0];
        if (!answer || !drawing || !this.box) return;
        const points = kPoints[bar];
        const drawn =
          this.shows === "why" ? foldMarks(drawing, points) : moveMarks(drawing, points);
        picture.show(drawing, this.box, [...drawn, ...names(drawing, points)], refusalNote(answer));
      },
    };
  }

  words({ height }: State, [answer]: Answers): string {
    const { values } = answer ?? {};
    const { steering_wheel_off_centre_deg: wheel, axle_walk_side_mm: walk } = values ?? {};
    if (typeof wheel !== "number" || typeof walk !== "number") return "";
    return folded(height - this.role.truck.aligned, wheel, walk, this.show.reader.unit);
  }
}

interface FoldText {
  readonly id: string;
  readonly kicker: string;
  readonly title: string;
  readonly says: readonly string[];
}

const kTexts: Readonly<Record<FoldShows, FoldText>> = {
  how: {
    id: "fold",
    kicker: "Why? 5",
    title: "A bar that folds",
    says: [
      "Hinge a half bar to the middle of a long bar. Hang it on a pivot. Let one end of the long bar slide along a guide through that pivot. That is a guided bar.",
      "Raise the truck: the bar folds, one end slides, and the other runs straight. It pulls nothing to the side.",
    ],
  },
  why: {
    id: "fold-why",
    kicker: "Why? 6",
    title: "Why its end runs straight",
    says: [
      "From the middle three lengths are equal: to both ends of the long bar, and to the pivot. So one circle goes through all three, and the long bar is its full width. A corner on such a circle is always square.",
      "So the free end always stands square to the guide, right in line with the pivot. The bar that steers folds the same way: raising the truck neither pushes nor pulls the steering.",
    ],
  },
};

function barChoice(stage: Stage<State>): HTMLElement {
  const choice = new Choice<Bar>(
    "Look at",
    [
      { value: "axle", words: "the bar that holds the axle" },
      { value: "steering", words: "the bar that steers" },
    ],
    "axle",
    (bar) => void stage.change({ bar }),
  );
  return choice.element;
}

export function foldChapter(show: Show, role: Role, shows: FoldShows): Opening {
  const [, top] = role.truck.heights;
  const exhibit = new Fold(show, role, shows);
  const state = { height: top, bar: "axle" } as const;
  const stage = new Stage<State>(
    exhibit,
    { first: state, telling: state, wordsShown: shows === "how" },
    show.reader,
  );
  const { elements } = heightSlider(
    show.reader,
    role.truck.heights,
    (height) => void stage.change({ height }),
    top,
  );
  const choice = shows === "why" ? [barChoice(stage)] : [];
  return {
    element: chapter({
      ...kTexts[shows],
      shows: [stage.element, controls(...elements, ...choice)],
      caption: castText(role),
    }),
    async open() {
      await exhibit.prepare();
      await stage.open();
    },
  };
}
