// The top of the page: two front ends, one slider, two steering wheels.

import type { ViewAnswer } from "../../engine.ts";
import type { LengthUnit } from "../../units.ts";
import { askView } from "../ask.ts";
import { controls } from "../chapter.ts";
import { ColumnPair, kFromBehind } from "../column.ts";
import { html } from "../dom.ts";
import { heightSlider } from "../height_slider.ts";
import { axlePlace, wheelPlace } from "../say/words.ts";
import { type Display, type Exhibit, Stage } from "../stage.ts";
import { heightsOf, type Show } from "../trucks.ts";
import { unitsSwitch } from "../units_switch.ts";

interface State {
  readonly height: number;
}

function axleWords(answer: ViewAnswer, unit: LengthUnit): string {
  const walk = answer.values?.axle_walk_side_mm;
  return typeof walk === "number" ? `Axle ${axlePlace(walk, unit)}` : "";
}

function spoken(answer: ViewAnswer, unit: LengthUnit): string {
  const turned = answer.values?.steering_wheel_off_centre_deg;
  if (typeof turned !== "number") return `${answer.truck}: cannot get there.`;
  return `${answer.truck}: steering wheel ${wheelPlace(turned)}, ${axleWords(answer, unit).toLowerCase()}.`;
}

function exhibit(show: Show): Exhibit<State> {
  return {
    answers: ({ height }) =>
      Promise.all(
        show.pair.map(({ file }) =>
          askView(show.engine, file, { height_mm: height }, [kFromBehind.wanted]),
        ),
      ),
    display(): Display<State> {
      const pair = new ColumnPair(show, kFromBehind);
      return {
        element: pair.element,
        show: (_, answers) =>
          pair.show(answers, (of) => ({ words: axleWords(of, show.reader.unit) })),
      };
    },
    words: (_, answers) => answers.map((answer) => spoken(answer, show.reader.unit)).join(" "),
  };
}

export interface Raised {
  readonly element: HTMLElement;
  open(): Promise<void>;
}

export const kTitle = "Raise the truck. Watch the steering wheel.";

export function raisePair(show: Show): Raised {
  const [bottom, top] = heightsOf(show.pair);
  const stage = new Stage(
    exhibit(show),
    { first: { height: bottom }, telling: { height: top }, wordsShown: false },
    show.reader,
  );
  const { play, elements } = heightSlider(
    show.reader,
    [bottom, top],
    (height) => void stage.change({ height }),
  );
  return {
    element: html(
      "section",
      { id: "raise", "aria-labelledby": "raise-title" },
      html("h1", { id: "raise-title" }, kTitle),
      html(
        "p",
        { class: "lead" },
        "Both trucks drive straight ahead. One slider raises both. ",
        html("a", { class: "why", href: "#steer" }, "Why?"),
      ),
      stage.element,
      controls(...elements, unitsSwitch(show.reader)),
      html("p", { class: "caption" }, "Seen from behind, as the driver sits: left is left."),
    ),
    async open() {
      await stage.open();
      play.showOnce();
    },
  };
}
