// A button that lets a person pick files.

import { button, element } from "./dom.ts";
import type { ReadFile } from "./layers.ts";
import { readFiles } from "./opening.ts";

export function opener(
  words: string,
  attributes: Readonly<Record<string, string | boolean>>,
  opened: (files: ReadFile[]) => void,
): HTMLElement {
  const input = element("input", {
    type: "file",
    class: "visually-hidden",
    tabindex: -1,
    "aria-hidden": "true",
    ...attributes,
  });
  input.addEventListener("change", async () => {
    const files = await readFiles(input.files ?? []);
    input.value = "";
    opened(files);
  });
  return element(
    "span",
    { class: "opener" },
    button(words, () => input.click()),
    input,
  );
}
