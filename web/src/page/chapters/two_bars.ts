// The chapters about two plain bars: the truck raised, and, where they differ, the wheel held and a bump driven over.

import { castText, type Role } from "../cast.ts";
import { chapter, controls } from "../chapter.ts";
import { Choice } from "../choice.ts";
import { heightSlider, liveSlider } from "../height_slider.ts";
import { length } from "../say/words.ts";
import { Stage } from "../stage.ts";
import type { Show } from "../trucks.ts";
import type { Opening } from "./opening.ts";
import { TwoBars, type TwoBarsState, type Winner } from "./two_bars_exhibit.ts";

export interface TwoBarsText {
  readonly id: string;
  readonly kicker: string;
  readonly title: string;
  readonly says: readonly (string | Node)[];
  /** Whether the wheel can be held and a bump driven over. */
  readonly withBump: boolean;
}

function bumpControls(show: Show, role: Role, stage: Stage<TwoBarsState>): Node[] {
  const [droop, bump] = role.truck.travel;
  const slider = liveSlider(show.reader, {
    name: "Both wheels",
    min: droop,
    max: bump,
    value: 0,
    say: (value) =>
      Math.abs(value) < 0.5
        ? "standing level"
        : `${length(value, show.reader.unit)} ${value > 0 ? "up" : "down"}`,
  });
  slider.onChange((value) => void stage.change({ bump: value }));
  const choice = new Choice<Winner>(
    "Who wins",
    [
      { value: "tyres", words: "the tyres: the truck goes straight" },
      { value: "hands", words: "the hands: the wheel is held still" },
    ],
    "tyres",
    (winner) => void stage.change({ winner }),
  );
  return [choice.element, slider.element];
}

export function twoBarsChapter(show: Show, role: Role, text: TwoBarsText): Opening {
  const [, top] = role.truck.heights;
  const exhibit = new TwoBars(show, role);
  const state = { height: top, bump: 0, winner: "tyres" } as const;
  const stage = new Stage<TwoBarsState>(
    exhibit,
    { first: state, telling: state, wordsShown: true },
    show.reader,
  );
  const { elements } = heightSlider(
    show.reader,
    role.truck.heights,
    (height) => void stage.change({ height }),
    top,
  );
  const more = text.withBump ? bumpControls(show, role, stage) : [];
  return {
    element: chapter({
      id: text.id,
      kicker: text.kicker,
      title: text.title,
      says: text.says,
      shows: [stage.element, controls(...elements, ...more)],
      caption: castText(role),
    }),
    async open() {
      await exhibit.prepare();
      await stage.open();
    },
  };
}
