// What a screen reader is told once the page has come to rest.

import type { ViewAnswer } from "../engine.ts";
import { type LengthUnit, lengthText } from "../units.ts";
import { element, setText } from "./dom.ts";
import { Rest } from "./rest.ts";
import { valueText } from "./shown_value.ts";

/** What the truck is judged by first. */
const kTold = ["steering_wheel_off_centre_deg", "axle_walk_side_mm", "axle_walk_forward_mm"];

const kRest_ms = 600;

export function poseWords(view: ViewAnswer, units: LengthUnit): string {
  if (!view.complete) return lastReachedWords(view);
  const told = kTold.flatMap((name) => {
    const quantity = view.quantities.find((one) => one.name === name);
    if (!quantity) return [];
    return [`${quantity.words} ${valueText(quantity, view.values?.[name], units)}`];
  });
  return `Height ${lengthText(view.drawn.height_mm, units)}: ${told.join("; ")}.`;
}

/** Why the pose asked for cannot be had, and what is drawn in its place. */
export function lastReachedWords(view: ViewAnswer): string {
  const why = view.story.at(-1) ?? view.report.message ?? view.report.outcome;
  return `${why} Drawn is the last pose reached on the way there: ${view.drawn_text}.`;
}

export class Announcer {
  readonly element = element("p", {
    class: "visually-hidden",
    role: "status",
    "aria-live": "polite",
  });
  private words = "";
  private readonly rest = new Rest(kRest_ms, () => setText(this.element, this.words));

  tell(words: string): void {
    if (words === this.words) return;
    this.words = words;
    this.rest.wait();
  }
}
