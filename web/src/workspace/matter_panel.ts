// Which points matter most for a quantity: what a millimetre of each does, numbered as the arrows on the sheet.

import type { Influence, Request, SweepAnswer } from "../engine.ts";
import { button, element, newId, setText } from "./dom.ts";
import type { Study } from "./findings.ts";
import { studyState } from "./limits_board.ts";

const kArrowCount = 8;

export interface MatterEvents {
  readonly choose: (quantity: string) => void;
  readonly select: (point: string) => void;
  readonly goTo: (where: Request) => void;
}

/** What arrows show: design moves of points, the strongest first. */
export function strongest(sweep: Study<SweepAnswer>): readonly Influence[] {
  return sweep.answer?.points_that_matter?.design_moves.slice(0, kArrowCount) ?? [];
}

export class MatterPanel {
  readonly element: HTMLElement;
  private readonly state = element("p", { class: "study-state", role: "status" });
  private readonly place = element("p", { class: "matter-place" });
  private readonly select: HTMLSelectElement;
  private readonly moves = element("ol", { class: "influences" });
  private readonly errors = element("ol", { class: "influences" });
  private shown: SweepAnswer | undefined;

  constructor(private readonly events: MatterEvents) {
    const id = newId("matter");
    this.select = element("select", { id });
    this.select.addEventListener("change", () => events.choose(this.select.value));
    this.element = element(
      "div",
      { class: "matter" },
      element("p", {}, element("label", { for: id }, "What a millimetre does to "), this.select),
      this.state,
      this.place,
      element(
        "div",
        { class: "columns" },
        element(
          "section",
          {},
          element("h2", {}, "Design moves"),
          element("p", { class: "note" }, "The point moves as drawn, and the lengths follow."),
          this.moves,
        ),
        element(
          "section",
          {},
          element("h2", {}, "Build errors"),
          element("p", { class: "note" }, "One end alone is off, or one length."),
          this.errors,
        ),
      ),
    );
  }

  show(sweep: Study<SweepAnswer>, chosen: string): void {
    setText(this.state, studyState(sweep));
    this.element.classList.toggle("is-stale", !sweep.fresh);
    const { answer } = sweep;
    if (answer === this.shown) return;
    this.shown = answer;
    const matter = answer?.points_that_matter;
    this.showChoices(answer, chosen);
    this.place.replaceChildren(
      ...(matter
        ? [
            "Told ",
            button(matter.place_text, () => this.events.goTo(matter.where), { class: "go" }),
          ]
        : []),
    );
    this.moves.replaceChildren(...this.list(matter?.design_moves ?? []));
    this.errors.replaceChildren(...this.list(matter?.build_errors ?? []));
  }

  /** What the file sets limits for, and what the panel opens with. */
  private showChoices(answer: SweepAnswer | undefined, chosen: string): void {
    const choices = new Map<string, string>();
    const matter = answer?.points_that_matter;
    choices.set("steering_wheel_off_centre", "steering wheel off centre");
    for (const limit of answer?.limits ?? []) choices.set(limit.quantity, limit.words);
    if (matter) choices.set(matter.quantity, matter.words);
    choices.delete("reach");
    this.select.replaceChildren(
      ...[...choices].map(([value, words]) => element("option", { value }, words)),
    );
    this.select.value = chosen;
  }

  private list(influences: readonly Influence[]): HTMLElement[] {
    return influences.map((influence) =>
      element(
        "li",
        {},
        influence.coordinate === "length"
          ? influence.text
          : button(influence.text, () => this.events.select(influence.name), { class: "go" }),
      ),
    );
  }
}
