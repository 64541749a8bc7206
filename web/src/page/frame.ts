// What stands around the chapters: whose page it is, and what the file is.

import { html } from "./dom.ts";
import type { PageData } from "./page_data.ts";

export function header({ name, words }: PageData["shop"]): HTMLElement {
  if (name !== "") document.title = `${name}: ${document.title}`;
  return html(
    "header",
    {},
    ...(name === "" ? [] : [html("p", { class: "shop" }, name)]),
    ...(words === "" ? [] : [html("p", { class: "shop-words" }, words)]),
  );
}

export function footer(weight_bytes: number): HTMLElement {
  const size = (weight_bytes / 1e6).toFixed(1);
  return html(
    "footer",
    {},
    html(
      "p",
      {},
      `This page is one file of ${size} MB, with the program that computes it inside. It works without a network and sends nothing anywhere. Made with Axlewright.`,
    ),
  );
}
