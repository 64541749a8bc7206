// Chapters get their pictures one after another, from the top of the page down.

import type { Opening } from "./chapters/opening.ts";
import { html } from "./dom.ts";

/** A picture that fails says so in its place; the others still come. */
export async function openAll(openings: readonly Opening[]): Promise<void> {
  for (const { element, open } of openings) {
    try {
      await open();
    } catch (error) {
      element.append(html("p", { class: "failed", role: "alert" }, messageOf(error)));
    }
  }
}

export function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
