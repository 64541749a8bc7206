// Drawers under the sheet: one open at a time, each front with what is in it.

import { element, newId, setAttribute, setText } from "./dom.ts";
import type { DrawerName } from "./state.ts";

export interface Drawer {
  readonly name: DrawerName;
  readonly words: string;
  readonly content: HTMLElement;
}

export class Drawers {
  readonly element: HTMLElement;
  private readonly fronts = new Map<
    DrawerName,
    { readonly button: HTMLButtonElement; readonly note: HTMLElement; readonly body: HTMLElement }
  >();

  constructor(drawers: readonly Drawer[], toggle: (name: DrawerName) => void) {
    const fronts = element("nav", { class: "drawer-fronts", "aria-label": "Drawers" });
    const bodies = element("div", { class: "drawer-bodies" });
    for (const { name, words, content } of drawers) {
      const id = newId("drawer");
      const note = element("span", { class: "drawer-note" });
      const front = element(
        "button",
        { type: "button", class: "drawer-front", "aria-expanded": "false", "aria-controls": id },
        element("span", { class: "drawer-words" }, words),
        note,
      );
      front.addEventListener("click", () => toggle(name));
      const body = element(
        "section",
        { id, class: `drawer drawer-${name}`, "aria-label": words, hidden: true },
        content,
      );
      fronts.append(front);
      bodies.append(body);
      this.fronts.set(name, { button: front, note, body });
    }
    this.element = element("div", { class: "drawers" }, fronts, bodies);
  }

  show(open: DrawerName | undefined, notes: Readonly<Record<DrawerName, string>>): void {
    for (const [name, front] of this.fronts) {
      setAttribute(front.button, "aria-expanded", name === open ? "true" : "false");
      front.body.hidden = name !== open;
      setText(front.note, notes[name]);
    }
    this.element.classList.toggle("is-open", open !== undefined);
  }
}
