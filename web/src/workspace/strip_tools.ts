// Above the strips: what the lines mean, which strips there are, the table, and the numbers to take away.

import type { Quantity } from "../engine.ts";
import { button, element, setAttribute, setText } from "./dom.ts";

export interface StripToolEvents {
  readonly choose: (names: readonly string[]) => void;
  readonly usual: () => void;
  readonly tables: (shown: boolean) => void;
  readonly copy: () => void;
  readonly save: () => void;
}

export interface Legend {
  readonly before: boolean;
  readonly other: string | undefined;
}

function sample(kind: string): SVGSVGElement {
  const holder = document.createElement("div");
  holder.innerHTML = `<svg class="sample" width="28" height="8" aria-hidden="true"><path class="curve curve-${kind}" d="M1 4H27"/></svg>`;
  return holder.firstElementChild as SVGSVGElement;
}

export class StripTools {
  readonly element: HTMLElement;
  private readonly beforeWords = element("span", { class: "legend" }, sample("before"));
  private readonly otherWords = element("span", { class: "legend" }, sample("other"));
  private readonly otherName = element("span");
  private readonly table: HTMLButtonElement;
  private readonly list = element("fieldset", { class: "strip-choices" });
  private readonly boxes = new Map<string, HTMLInputElement>();
  private choicesOf = "";

  constructor(private readonly events: StripToolEvents) {
    this.beforeWords.append("before the last change");
    this.otherWords.append(this.otherName);
    this.table = button("Table", () => {
      events.tables(this.table.getAttribute("aria-pressed") !== "true");
    });
    const choose = element(
      "details",
      { class: "strip-choose" },
      element("summary", {}, "Choose strips"),
      this.list,
    );
    this.element = element(
      "div",
      { class: "strip-tools" },
      element(
        "p",
        { class: "legends" },
        element("span", { class: "legend" }, sample("present"), "this version, going straight"),
        this.beforeWords,
        this.otherWords,
        element(
          "span",
          { class: "legend" },
          element("span", { class: "band-sample", "aria-hidden": "true" }),
          "allowed",
        ),
      ),
      element(
        "div",
        { class: "buttons" },
        this.table,
        choose,
        button("Copy CSV", events.copy),
        button("Save CSV", events.save),
      ),
    );
  }

  show(legend: Legend, tables: boolean, quantities: readonly Quantity[], names: readonly string[]) {
    this.beforeWords.hidden = !legend.before;
    this.otherWords.hidden = legend.other === undefined;
    setText(this.otherName, legend.other ?? "");
    setAttribute(this.table, "aria-pressed", tables ? "true" : "false");
    this.showChoices(quantities);
    for (const [name, box] of this.boxes) box.checked = names.includes(name);
  }

  private showChoices(quantities: readonly Quantity[]): void {
    const key = quantities.map((quantity) => quantity.name).join(" ");
    if (key === this.choicesOf) return;
    this.choicesOf = key;
    this.boxes.clear();
    const choices = quantities.map((quantity) => {
      const box = element("input", { type: "checkbox", value: quantity.name });
      box.addEventListener("change", () => this.chosen());
      this.boxes.set(quantity.name, box);
      return element("label", {}, box, quantity.words);
    });
    this.list.replaceChildren(
      element("legend", { class: "visually-hidden" }, "Strips"),
      button("The usual ones", this.events.usual),
      ...choices,
    );
  }

  private chosen(): void {
    const names = [...this.boxes].filter(([, box]) => box.checked).map(([name]) => name);
    // Without any the engine would show the usual ones: the last one stays.
    if (names.length > 0) this.events.choose(names);
  }
}
