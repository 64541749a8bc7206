// What a check found: what is loose (each motion in words, and carried out on the sheet, played or by hand), what holds the rest, what rigid
// parts could not do, and how well what was measured fits together.

import type { CheckAnswer, LooseMotion } from "../engine.ts";
import { button, element, setAttribute, setText } from "./dom.ts";
import type { Study } from "./findings.ts";
import { NumberField } from "./number_field.ts";
import type { State } from "./state.ts";
import { Swing } from "./swing.ts";

export interface LooseEvents {
  readonly loosen: (motion: State["loose"]) => void;
}

/** How far a motion is shown that no stud stops [deg]. */
const kShown_deg = 20;

class MotionRow {
  readonly element: HTMLElement;
  private readonly play: HTMLButtonElement;
  private readonly angle: NumberField;
  private readonly swing: Swing;
  private readonly limit: number;

  constructor(
    readonly motion: LooseMotion,
    private readonly events: LooseEvents,
  ) {
    this.limit = Math.min(motion.free_deg ?? kShown_deg, kShown_deg);
    this.swing = new Swing(this.limit, (angle_deg) => this.turn(angle_deg));
    this.play = button("Play", () => this.toggle(), { "aria-pressed": "false" });
    this.angle = new NumberField({
      words: "Carried out by",
      kind: "angle",
      hint: "",
      onValue: (angle_deg) => {
        this.swing.stop();
        this.turn(angle_deg);
      },
    });
    const still = matchMedia("(prefers-reduced-motion: reduce)");
    this.play.hidden = still.matches;
    this.element = element(
      "li",
      { class: motion.idle ? "loose-idle" : "loose-play" },
      element("p", {}, motion.text),
      element("div", { class: "loose-controls" }, this.play, this.angle.element),
    );
  }

  show(loose: State["loose"], units: State["units"]): void {
    const mine = loose?.name === this.motion.name;
    if (!mine) this.swing.stop();
    this.angle.show(mine ? loose.angle_deg : 0, [-this.limit, this.limit], units);
    setAttribute(this.play, "aria-pressed", this.swing.running ? "true" : "false");
    setText(this.play, this.swing.running ? "Stop" : "Play");
  }

  stop(): void {
    this.swing.stop();
  }

  private toggle(): void {
    if (this.swing.running) {
      this.swing.stop();
      this.events.loosen(undefined);
    } else {
      this.swing.start();
    }
  }

  private turn(angle_deg: number): void {
    this.events.loosen({ name: this.motion.name, angle_deg });
  }
}

/** A list of sentences under a heading, gone where there are none. */
class Told {
  readonly element: HTMLElement;
  private readonly list = element("ul", { class: "told" });

  constructor(heading: string) {
    this.element = element("section", {}, element("h2", {}, heading), this.list);
  }

  show(sentences: readonly string[]): void {
    this.element.hidden = sentences.length === 0;
    this.list.replaceChildren(...sentences.map((sentence) => element("li", {}, sentence)));
  }
}

export class LoosePanel {
  readonly element: HTMLElement;
  private readonly state = element("p", { class: "study-state", role: "status" });
  private readonly none = element("p", {});
  private readonly list = element("ul", { class: "loose-list" });
  private readonly holds = new Told("Held by");
  private readonly fights = new Told("What rigid parts could not do");
  private readonly measured = new Told("As measured");
  private rows: readonly MotionRow[] = [];
  private shown: CheckAnswer | undefined;

  constructor(private readonly events: LooseEvents) {
    this.element = element(
      "div",
      { class: "loose" },
      this.state,
      this.none,
      element(
        "div",
        { class: "columns" },
        element("section", {}, element("h2", {}, "Loose"), this.list),
        this.holds.element,
        this.fights.element,
        this.measured.element,
      ),
    );
  }

  show(check: Study<CheckAnswer>, loose: State["loose"], units: State["units"]): void {
    setText(this.state, looseState(check));
    this.element.classList.toggle("is-stale", !check.fresh);
    const { answer } = check;
    if (answer !== this.shown) {
      this.shown = answer;
      for (const row of this.rows) row.stop();
      this.rows = (answer?.loose ?? []).map((motion) => new MotionRow(motion, this.events));
      this.list.replaceChildren(...this.rows.map((row) => row.element));
      this.holds.show((answer?.holds ?? []).map((hold) => hold.text));
      this.fights.show((answer?.fights ?? []).map((fight) => fight.text));
      this.measured.show(measuredSentences(answer));
      const nothing = answer !== undefined && answer.loose.length === 0;
      setText(this.none, nothing ? "With height, lean and steering set, nothing can move." : "");
    }
    for (const row of this.rows) row.show(loose, units);
  }
}

/** How well it fits together, and each reading; of the coordinates the worst alone. */
function measuredSentences(answer: CheckAnswer | undefined): readonly string[] {
  const measured = answer?.measured;
  if (measured === undefined) return [];
  const told = measured.readings.filter((one) => !one.coordinate || one.name === measured.worst);
  return [measured.text, ...told.map((one) => one.text)];
}

function looseState(check: Study<CheckAnswer>): string {
  if (check.progress !== undefined) {
    return `Checking what holds it: ${Math.round(check.progress * 100)} %`;
  }
  if (check.answer === undefined) return "Not checked yet.";
  return check.fresh ? "" : "Of the version before the last change.";
}
