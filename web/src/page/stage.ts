// What stands between a slider and a picture: a state, the answers that it needs, and the displays that show them. Each idea is
// shown twice, once to play with and once, at a telling pose, for paper.

import { newestOnly, type ViewAnswer } from "../engine.ts";
import { Announcer } from "./announce.ts";
import { html, setText } from "./dom.ts";
import type { Reader } from "./reader.ts";

export type Answers = readonly ViewAnswer[];

export interface Display<State> {
  readonly element: HTMLElement;
  show(state: State, answers: Answers): void;
}

export interface Exhibit<State> {
  answers(state: State): Promise<Answers>;
  display(): Display<State>;
  /** What the picture says now, in a sentence or two. */
  words(state: State, answers: Answers): string;
}

export interface StageOptions<State> {
  readonly first: State;
  /** The pose that is printed. */
  readonly telling: State;
  /** Whether the words are for the eye too, not only for a screen reader. */
  readonly wordsShown: boolean;
}

interface Shown<State> {
  readonly state: State;
  readonly answers: Answers;
}

/** A display with its words below. */
class Panel<State> {
  readonly element: HTMLElement;
  private readonly display: Display<State>;
  private readonly words = html("p", { class: "now" });

  constructor(
    private readonly exhibit: Exhibit<State>,
    className: string,
    wordsShown: boolean,
  ) {
    this.display = exhibit.display();
    this.element = html("div", { class: className }, this.display.element);
    if (wordsShown) this.element.append(this.words);
  }

  show({ state, answers }: Shown<State>): string {
    const words = this.exhibit.words(state, answers);
    this.display.show(state, answers);
    setText(this.words, words);
    return words;
  }
}

export class Stage<State> {
  readonly element: HTMLElement;
  private readonly onScreen: Panel<State>;
  private readonly onPaper: Panel<State>;
  private readonly announcer = new Announcer();
  private readonly newest = newestOnly<Shown<State>>();
  private state: State;
  private shownOnScreen: Shown<State> | undefined;
  private shownOnPaper: Shown<State> | undefined;

  constructor(
    private readonly exhibit: Exhibit<State>,
    private readonly options: StageOptions<State>,
    reader: Reader,
  ) {
    this.state = options.first;
    this.onScreen = new Panel(exhibit, "for-screen", options.wordsShown);
    this.onPaper = new Panel(exhibit, "for-paper", options.wordsShown);
    this.element = html(
      "div",
      { class: "stage" },
      this.onScreen.element,
      this.onPaper.element,
      this.announcer.element,
    );
    reader.onChange(() => {
      this.announcer.clear();
      if (this.shownOnScreen) this.showOnScreen(this.shownOnScreen);
      if (this.shownOnPaper) this.showOnPaper(this.shownOnPaper);
    });
  }

  /** The first pictures, of the screen and of the paper. */
  async open(): Promise<void> {
    const { first, telling } = this.options;
    const onScreen = await this.exhibit.answers(first);
    // The reader may have moved a slider meanwhile.
    if (this.state === first) this.showOnScreen({ state: first, answers: onScreen });
    const onPaper = telling === first ? onScreen : await this.exhibit.answers(telling);
    this.showOnPaper({ state: telling, answers: onPaper });
  }

  /** A finger moves faster than answers come: of what waits only the newest is asked. */
  async change(part: Partial<State>): Promise<void> {
    this.state = { ...this.state, ...part };
    const shown = await this.newest(async () => {
      const state = this.state;
      return { state, answers: await this.exhibit.answers(state) };
    });
    if (shown) this.announcer.say(this.showOnScreen(shown));
  }

  private showOnScreen(shown: Shown<State>): string {
    this.shownOnScreen = shown;
    return this.onScreen.show(shown);
  }

  private showOnPaper(shown: Shown<State>): void {
    this.shownOnPaper = shown;
    this.onPaper.show(shown);
  }
}
