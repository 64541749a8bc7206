// One idea on one screen: a heading, a few short sentences, a picture, the slider under it, and what it now says.

import { html } from "./dom.ts";

export interface ChapterParts {
  readonly id: string;
  readonly kicker?: string;
  readonly title: string;
  readonly says: readonly (string | Node)[];
  /** Pictures with what moves them. */
  readonly shows: readonly Node[];
  /** What is said once the picture has been seen. */
  readonly after?: Node;
  /** Whose picture it is. */
  readonly caption?: string;
}

export function chapter(parts: ChapterParts): HTMLElement {
  const heading = html("h2", { id: `${parts.id}-title` }, parts.title);
  const words = parts.says.map((said) => (typeof said === "string" ? html("p", {}, said) : said));
  return html(
    "section",
    { id: parts.id, "aria-labelledby": heading.id },
    html(
      "div",
      { class: "words" },
      ...(parts.kicker ? [html("p", { class: "kicker" }, parts.kicker)] : []),
      heading,
      ...words,
    ),
    html(
      "div",
      { class: "shows" },
      ...parts.shows,
      ...(parts.after ? [parts.after] : []),
      ...(parts.caption ? [html("p", { class: "caption" }, parts.caption)] : []),
    ),
  );
}

/** What moves a picture; not printed. */
export function controls(...inside: readonly Node[]): HTMLElement {
  return html("div", { class: "controls" }, ...inside);
}
