// The same two trucks over a bump, in a lean and in a turn, at a height that the reader chooses.

import type { PoseInputs, ViewAnswer, ViewWanted } from "../../engine.ts";
import { askView } from "../ask.ts";
import { chapter, controls } from "../chapter.ts";
import { Choice } from "../choice.ts";
import { ColumnPair } from "../column.ts";
import { liveSlider } from "../height_slider.ts";
import { Play } from "../play.ts";
import { type Answers, type Display, type Exhibit, Stage } from "../stage.ts";
import { heightsOf, type Show } from "../trucks.ts";
import { type Move, wheelOf } from "./move_kinds.ts";
import type { Opening } from "./opening.ts";

type Level = "low" | "middle" | "tall";

interface State {
  readonly move: number;
  readonly level: Level;
}

function heightAt(level: Level, [bottom, top]: readonly [number, number]): number {
  return { low: bottom, middle: (bottom + top) / 2, tall: top }[level];
}

class Moved implements Exhibit<State> {
  constructor(
    private readonly show: Show,
    private readonly move: Move,
  ) {}

  /** Both trucks moved, then both at rest: of those only the values are wanted. */
  async answers({ move: value, level }: State): Promise<Answers> {
    const height_mm = heightAt(level, heightsOf(this.show.pair));
    const pose = { height_mm, ...this.move.pose(value) };
    const moved = await this.askBoth(pose, [this.move.look.wanted]);
    return [...moved, ...(await this.askBoth({ height_mm }, []))];
  }

  private askBoth(pose: PoseInputs, views: readonly ViewWanted[]): Promise<ViewAnswer[]> {
    const { engine, pair } = this.show;
    return Promise.all(pair.map(({ file }) => askView(engine, file, pose, views)));
  }

  display(): Display<State> {
    const pair = new ColumnPair(this.show, this.move.look);
    return {
      element: pair.element,
      show: (_, answers) =>
        pair.show(answers, (_answer, place) => {
          const before = answers[place + this.show.pair.length];
          const before_deg = this.move.turnsWheel && before ? wheelOf(before) : undefined;
          const words = this.tell(answers, place);
          return before_deg === undefined ? { words } : { words, before_deg };
        }),
    };
  }

  words(_: State, answers: Answers): string {
    return this.show.pair
      .map(({ name }, place) => `${name}: ${this.tell(answers, place)}`)
      .join(" ");
  }

  private tell(answers: Answers, place: number): string {
    const answer = answers[place];
    const before = answers[place + this.show.pair.length];
    return answer && before ? this.move.tell(answer, before) : "";
  }
}

/** What stands around the picture. */
export interface MoveText {
  readonly id: string;
  readonly title: string;
  readonly says: readonly string[];
  readonly after?: Node;
  readonly caption?: string;
}

export function moveChapter(show: Show, move: Move, text: MoveText): Opening {
  const range = move.range(show);
  const state = { move: move.telling(range), level: "tall" } as const;
  const stage = new Stage<State>(
    new Moved(show, move),
    { first: state, telling: state, wordsShown: false },
    show.reader,
  );
  const slider = liveSlider(show.reader, {
    name: move.slider.name,
    min: range[0],
    max: range[1],
    value: state.move,
    say: (value) => move.slider.say(value, show.reader.unit),
    leftIsPositive: !move.turnsWheel,
  });
  slider.onChange((value) => void stage.change({ move: value }));
  const play = new Play(slider, { play: move.play, stop: "Stop", step: "Next place" });
  const level = new Choice<Level>(
    "Truck raised",
    [
      { value: "low", words: "not at all" },
      { value: "middle", words: "half way" },
      { value: "tall", words: "all the way" },
    ],
    state.level,
    (value) => void stage.change({ level: value }),
  );
  return {
    element: chapter({
      ...text,
      shows: [stage.element, controls(slider.element, play.button, level.element)],
    }),
    open: () => stage.open(),
  };
}
