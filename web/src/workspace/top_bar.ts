// The bar at the top: which truck, open and save, undo and redo, units and theme.

import type { LengthUnit } from "../units.ts";
import { button, element, newId, setText } from "./dom.ts";
import type { ReadFile } from "./layers.ts";
import { opener } from "./opener.ts";
import { type State, type Theme, unsaved } from "./state.ts";

export interface TopBarEvents {
  readonly choose: (file: string) => void;
  readonly opened: (files: ReadFile[]) => void;
  readonly save: () => void;
  readonly undo: () => void;
  readonly redo: () => void;
  readonly units: (units: LengthUnit) => void;
  readonly theme: (theme: Theme) => void;
}

const kUnits: readonly { readonly units: LengthUnit; readonly words: string }[] = [
  { units: "mm", words: "mm" },
  { units: "inch", words: "inch" },
];

const kThemes: readonly { readonly theme: Theme; readonly words: string }[] = [
  { theme: "system", words: "as the system" },
  { theme: "light", words: "light" },
  { theme: "dark", words: "dark" },
];

function labelled(words: string, input: HTMLSelectElement): HTMLElement {
  const id = newId("choice");
  input.id = id;
  return element("span", { class: "choice" }, element("label", { for: id }, words), input);
}

export class TopBar {
  readonly element: HTMLElement;
  private readonly truck = element("select", {});
  private readonly units: ReadonlyMap<LengthUnit, HTMLInputElement>;
  private readonly theme: HTMLSelectElement;
  private readonly undo: HTMLButtonElement;
  private readonly redo: HTMLButtonElement;
  private readonly save: HTMLButtonElement;
  private readonly saved = element("span", { class: "saved", role: "status" });

  constructor(events: TopBarEvents) {
    this.truck.addEventListener("change", () => events.choose(this.truck.value));
    this.undo = button("Undo", events.undo, { "aria-keyshortcuts": "Control+Z" });
    this.redo = button("Redo", events.redo, { "aria-keyshortcuts": "Control+Shift+Z" });
    this.save = button("Save", events.save, { "aria-keyshortcuts": "Control+S" });
    this.theme = element(
      "select",
      {},
      ...kThemes.map(({ theme, words }) => element("option", { value: theme }, words)),
    );
    this.theme.addEventListener("change", () => events.theme(this.theme.value as Theme));
    const name = newId("units");
    this.units = new Map(
      kUnits.map(({ units }) => {
        const radio = element("input", { type: "radio", name, value: units });
        radio.addEventListener("change", () => events.units(units));
        return [units, radio];
      }),
    );
    this.element = element(
      "header",
      { class: "top-bar" },
      element("h1", {}, "Axlewright"),
      labelled("Truck", this.truck),
      opener("Open files", { multiple: true, accept: ".toml" }, events.opened),
      opener("Open folder", { webkitdirectory: true }, events.opened),
      element("span", { class: "buttons" }, this.undo, this.redo, this.save),
      this.saved,
      element(
        "fieldset",
        { class: "units" },
        element("legend", { class: "visually-hidden" }, "Units"),
        ...kUnits.map(({ units, words }) =>
          element("label", {}, this.units.get(units) as HTMLInputElement, words),
        ),
      ),
      labelled("Theme", this.theme),
    );
  }

  show(state: State): void {
    const paths = [...state.texts.keys()];
    if (this.truck.dataset.paths !== paths.join("\n")) {
      this.truck.dataset.paths = paths.join("\n");
      this.truck.replaceChildren(...paths.map((path) => element("option", { value: path }, path)));
    }
    if (state.file !== undefined && this.truck.value !== state.file) this.truck.value = state.file;
    this.undo.disabled = state.past.length === 0;
    this.redo.disabled = state.future.length === 0;
    for (const [units, radio] of this.units) radio.checked = units === state.units;
    if (this.theme.value !== state.theme) this.theme.value = state.theme;
    const count = unsaved(state).length;
    const changed = count > 0 || state.trial.size > 0;
    this.save.disabled = !changed;
    const words = `${count} ${count === 1 ? "file" : "files"} not saved`;
    setText(this.saved, count === 0 ? "" : words);
  }
}
