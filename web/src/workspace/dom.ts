// Elements in a line: `element("button", { type: "button" }, "Undo")`.

type Child = Node | string;
type Attributes = Readonly<Record<string, string | number | boolean | undefined>>;

function fill(target: Element, attributes: Attributes, children: readonly Child[]): void {
  for (const [name, value] of Object.entries(attributes)) setAttribute(target, name, value);
  target.append(...children);
}

/** True sets an empty attribute; false and undefined take it away. Writes only what changes. */
export function setAttribute(
  target: Element,
  name: string,
  value: string | number | boolean | undefined,
): void {
  if (value === undefined || value === false) {
    target.removeAttribute(name);
    return;
  }
  const text = value === true ? "" : String(value);
  if (target.getAttribute(name) !== text) target.setAttribute(name, text);
}

export function setText(target: Node, text: string): void {
  if (target.textContent !== text) target.textContent = text;
}

export function element<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[K] {
  const made = document.createElement(tag);
  fill(made, attributes, children);
  return made;
}

export function svgElement<K extends keyof SVGElementTagNameMap>(
  tag: K,
  attributes: Attributes = {},
  ...children: readonly Child[]
): SVGElementTagNameMap[K] {
  const made = document.createElementNS("http://www.w3.org/2000/svg", tag);
  fill(made, attributes, children);
  return made;
}

export function button(
  words: string,
  onClick: () => void,
  attributes: Attributes = {},
): HTMLButtonElement {
  const made = element("button", { type: "button", ...attributes }, words);
  made.addEventListener("click", onClick);
  return made;
}

let lastId = 0;

/** An id for `for`, `aria-labelledby` and the like. */
export function newId(name: string): string {
  lastId += 1;
  return `${name}-${lastId}`;
}
