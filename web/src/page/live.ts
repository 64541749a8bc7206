// Text that follows the reader's unit.

import { html, setText } from "./dom.ts";
import type { Reader } from "./reader.ts";

export function liveText(reader: Reader, className: string, say: () => string): HTMLElement {
  const element = html("p", className === "" ? {} : { class: className }, say());
  reader.onChange(() => setText(element, say()));
  return element;
}

/** What is made anew when the unit changes. */
export function liveBlock(reader: Reader, className: string, make: () => Node[]): HTMLElement {
  const element = html("div", { class: className }, ...make());
  reader.onChange(() => element.replaceChildren(...make()));
  return element;
}
