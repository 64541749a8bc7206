// Elements in one expression each. Text goes in as text, never as markup.

export type Child = Node | string;

type Attributes = Readonly<Record<string, string | number | boolean>>;

function write(element: Element, attributes: Attributes, children: readonly Child[]): void {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === false) continue;
    element.setAttribute(name, value === true ? "" : String(value));
  }
  element.append(...children);
}

export function html<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...children: Child[]
): HTMLElementTagNameMap[Tag] {
  const element = document.createElement(tag);
  write(element, attributes, children);
  return element;
}

export function svg<Tag extends keyof SVGElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...children: Child[]
): SVGElementTagNameMap[Tag] {
  const element = document.createElementNS("http://www.w3.org/2000/svg", tag);
  write(element, attributes, children);
  return element;
}

let lastId = 0;

export function newId(stem: string): string {
  lastId += 1;
  return `${stem}-${lastId}`;
}

/** Changes a text only where it differs: a screen reader hears a live region once. */
export function setText(element: Element, text: string): void {
  if (element.textContent !== text) element.textContent = text;
}
