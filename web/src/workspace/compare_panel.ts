// A second truck beside the one at hand: chosen here, drawn in its own line, and told worst against worst.

import type { CompareAnswer, Fault } from "../engine.ts";
import type { LengthUnit } from "../units.ts";
import { element, newId, setText } from "./dom.ts";
import type { Study } from "./findings.ts";
import type { ReadFile } from "./layers.ts";
import { studyState } from "./limits_board.ts";
import { opener } from "./opener.ts";
import { headText, valueText } from "./shown_value.ts";
import type { Texts } from "./state.ts";

export interface CompareEvents {
  readonly choose: (file: string | undefined) => void;
  /** A truck from elsewhere, with its layers. */
  readonly add: (files: ReadFile[]) => void;
}

export class ComparePanel {
  readonly element: HTMLElement;
  private readonly select: HTMLSelectElement;
  private readonly state = element("p", { class: "study-state", role: "status" });
  private readonly fault = element("p", { class: "field-fault", role: "alert" });
  private readonly table = element("div");
  private shown: readonly unknown[] = [];

  constructor(events: CompareEvents) {
    const id = newId("compare");
    this.select = element("select", { id });
    this.select.addEventListener("change", () => events.choose(this.select.value || undefined));
    this.element = element(
      "div",
      { class: "compare" },
      element(
        "p",
        { class: "choice" },
        element("label", { for: id }, "Compare with "),
        this.select,
        opener("Add files", { multiple: true, accept: ".toml" }, events.add),
      ),
      this.fault,
      this.state,
      this.table,
    );
  }

  show(
    texts: Texts,
    file: string | undefined,
    other: string | undefined,
    faults: readonly Fault[],
    compare: Study<CompareAnswer>,
    units: LengthUnit,
  ): void {
    this.showChoices(texts, file, other);
    setText(this.fault, faults.map((fault) => `${fault.file}: ${fault.what}`).join("; "));
    setText(this.state, other === undefined ? "" : studyState(compare));
    this.element.classList.toggle("is-stale", !compare.fresh);
    const answer = other === undefined ? undefined : compare.answer;
    if (answer === this.shown[0] && units === this.shown[1]) return;
    this.shown = [answer, units];
    this.table.replaceChildren(...(answer ? [comparison(answer, units)] : []));
  }

  private showChoices(texts: Texts, file: string | undefined, other: string | undefined): void {
    const paths = [...texts.keys()].filter((path) => path !== file);
    if (this.select.dataset.paths !== paths.join("\n")) {
      this.select.dataset.paths = paths.join("\n");
      this.select.replaceChildren(
        element("option", { value: "" }, "nothing"),
        ...paths.map((path) => element("option", { value: path }, path)),
      );
    }
    if (this.select.value !== (other ?? "")) this.select.value = other ?? "";
  }
}

function comparison(answer: CompareAnswer, units: LengthUnit): HTMLElement {
  const rows = answer.comparison.map((quantity) =>
    element(
      "tr",
      {},
      element("th", { scope: "row" }, headText(quantity, units)),
      ...quantity.worst.map((worst, i) =>
        element(
          "td",
          { class: "number" },
          valueText(quantity, worst, units),
          ...(quantity.best.includes(i) ? [element("b", {}, " least")] : []),
        ),
      ),
    ),
  );
  const heads = ["Worst of each", ...answer.trucks.map((truck) => truck.truck)];
  return element(
    "div",
    {},
    element("ul", { class: "story" }, ...answer.story.map((text) => element("li", {}, text))),
    element(
      "table",
      { class: "board" },
      element(
        "thead",
        {},
        element("tr", {}, ...heads.map((words) => element("th", { scope: "col" }, words))),
      ),
      element("tbody", {}, ...rows),
    ),
  );
}
