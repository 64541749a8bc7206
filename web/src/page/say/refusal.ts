// A pose that cannot be had: said, and what is drawn instead.

import type { ViewAnswer } from "../../engine.ts";

/** Empty where what is drawn is what was asked for. */
export function refusalNote(
  answer: Pick<ViewAnswer, "complete" | "report" | "drawn_text">,
): string {
  if (answer.complete) return "";
  const { what_ran_out, how_it_ran_out, outcome } = answer.report;
  const why = what_ran_out ? `${what_ran_out} ${how_it_ran_out ?? "go no further"}` : outcome;
  return `This truck cannot get there: ${why}. Drawn as far as it goes: ${answer.drawn_text}.`;
}
