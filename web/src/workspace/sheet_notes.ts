// What is said at the sheet: why it does not show what was asked for. And the title strip under it.

import type { Fault, ViewAnswer } from "../engine.ts";
import { numberText, shownUnit } from "../units.ts";
import { lastReachedWords } from "./announce.ts";
import { button, element, setText } from "./dom.ts";
import type { Findings } from "./findings.ts";
import { pointWords } from "./handles.ts";
import { valueText } from "./shown_value.ts";
import type { State } from "./state.ts";

/** What the title strip reads out at the present pose. */
const kReadOut = ["steering_wheel_off_centre_deg", "axle_walk_side_mm", "mean_steer_deg"];

const kHint = {
  mm: "Drag a point, or tab to one: the arrow keys move it 1 mm, with Shift 0.1 mm.",
  inch: "Drag a point, or tab to one: the arrow keys move it 0.1 in, with Shift 0.01 in.",
} as const;

export class SheetNotes {
  readonly element: HTMLElement;
  private readonly note = element("p", { class: "sheet-note", role: "status" });
  private shown = "";

  constructor(private readonly showFault: (fault: Fault) => void) {
    this.element = element("div", { class: "sheet-notes" }, this.note);
  }

  show(state: State, findings: Findings): void {
    const { words, fault } = notesOf(state, findings);
    const key = `${words} ${fault?.file} ${fault?.line}`;
    if (key === this.shown) return;
    this.shown = key;
    this.element.classList.toggle("is-there", words !== "");
    this.note.replaceChildren(
      words,
      ...(fault
        ? [" ", button("Show it in the file", () => this.showFault(fault), { class: "go" })]
        : []),
    );
  }
}

function notesOf(
  state: State,
  { view, faults, trialFaults, missing, notice }: Findings,
): { readonly words: string; readonly fault: Fault | undefined } {
  if (missing.length > 0) {
    const words = `Waiting for ${missing.join(", ")}: a layer that ${state.file} is based on. Open or drop it.`;
    return { words, fault: undefined };
  }
  const first = faults.find((fault) => fault.severity === "error");
  if (first) {
    const count = faults.length === 1 ? "a fault" : `${faults.length} faults`;
    const drawn = view ? " The sheet shows the last version without." : "";
    const where = first.line > 0 ? `, line ${first.line}` : "";
    return {
      words: `The text has ${count}. ${first.file}${where}: ${first.what}.${drawn}`,
      fault: first.line > 0 ? first : undefined,
    };
  }
  if (trialFaults.length > 0) {
    const told = trialFaults.map((fault) =>
      fault.fix ? `${fault.what} (${fault.fix})` : fault.what,
    );
    return { words: `That change cannot be made: ${told.join("; ")}.`, fault: undefined };
  }
  if (view && !view.complete) return { words: lastReachedWords(view), fault: undefined };
  return { words: notice, fault: undefined };
}

export class TitleStrip {
  readonly element: HTMLElement;
  private readonly truck = element("div", { class: "cell cell-truck" });
  private readonly pose = element("div", { class: "cell cell-pose" });
  private readonly values = element("dl", { class: "cell cell-values" });
  private readonly point = element("div", { class: "cell cell-point" });

  constructor(buttons: readonly HTMLElement[]) {
    this.element = element(
      "div",
      { class: "title-strip" },
      this.truck,
      this.pose,
      this.values,
      this.point,
      element("div", { class: "cell cell-tools buttons" }, ...buttons),
    );
  }

  show(state: State, view: ViewAnswer | undefined): void {
    setText(this.truck, view?.truck ?? "");
    setText(this.pose, view ? view.drawn_text : "");
    this.showValues(state, view);
    this.showPoint(state, view);
  }

  private showValues(state: State, view: ViewAnswer | undefined): void {
    const told = kReadOut.flatMap((name) => {
      const quantity = view?.quantities.find((one) => one.name === name);
      return quantity
        ? [[quantity.words, valueText(quantity, view?.values?.[name], state.units)] as const]
        : [];
    });
    const key = told.flat().join("\n");
    if (this.values.dataset.key === key) return;
    this.values.dataset.key = key;
    this.values.replaceChildren(
      ...told.map(([words, value]) =>
        element("div", {}, element("dt", {}, words), element("dd", {}, value)),
      ),
    );
  }

  private showPoint(state: State, view: ViewAnswer | undefined): void {
    const point = view?.points.find((one) => one.name === state.selected);
    if (!point) {
      setText(this.point, kHint[state.units]);
      return;
    }
    const unit = shownUnit("mm", state.units);
    const [x, y, z] = point.measured_mm.map((mm) => numberText(unit, mm, unit.decimals));
    const place = `x ${x}, y ${y}, z ${z} ${unit.symbol}`;
    setText(this.point, `${pointWords(point.name)}, as measured: ${place}`);
  }
}
