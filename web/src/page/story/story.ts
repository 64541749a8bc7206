// The chapters below the top: which truck shows what, and what may be said of it.

import { castOf } from "../cast.ts";
import { costsChapter } from "../chapters/costs.ts";
import { numbersChapter } from "../chapters/numbers.ts";
import type { Opening } from "../chapters/opening.ts";
import { cautions } from "../chapters/recap.ts";
import { pairOf } from "../comparison.ts";
import { html } from "../dom.ts";
import { liveBlock } from "../live.ts";
import { reachText } from "../say/reach.ts";
import { walkVerdict, wheelVerdict } from "../say/verdict.ts";
import type { Show } from "../trucks.ts";
import { compareInBoth, kWalk, kWheel } from "./compared.ts";
import { carelessChapters, costNumbers } from "./costs.ts";
import { moveChapters } from "./moves.ts";
import { recap } from "./recap.ts";
import { exampleCast, roleOf } from "./roles.ts";
import { whyChapters } from "./why.ts";

export interface Story {
  /** What the two at the top do, in words. */
  readonly verdict: Node;
  /** In the page's order. */
  readonly chapters: readonly Node[];
  /** Those that get pictures. */
  readonly openings: readonly Opening[];
}

function paragraph(text: string): Node[] {
  return text === "" ? [] : [html("p", {}, text)];
}

export async function storyOf(show: Show): Promise<Story> {
  const { reader } = show;
  const files = show.pair.map(({ file }) => file);
  const givenIn = await compareInBoth(show.engine, files);
  const given = givenIn("mm");
  const roles = show.pair.map((truck, place) => roleOf(truck, true, given, place));
  const examples = await exampleCast(show);
  const cast = castOf(roles, examples);
  const costs = costsChapter(reader, await costNumbers(show, given));
  const moves = moveChapters(show, givenIn);
  const why = whyChapters(show, cast);
  const careless = await carelessChapters(show, examples.guided.truck);
  return {
    verdict: liveBlock(reader, "verdict", () => [
      ...paragraph(reachText(given.trucks)),
      html("p", {}, wheelVerdict(pairOf(given, kWheel))),
      html("p", {}, walkVerdict(pairOf(given, kWalk), reader.unit)),
    ]),
    chapters: [
      ...moves.map(({ element }) => element),
      ...why.map(({ element }) => element),
      costs,
      ...careless.map(({ element }) => element),
      numbersChapter(reader, givenIn),
      recap(show, given, cast),
      cautions(given.cautions),
    ],
    openings: [...moves, ...why, ...careless],
  };
}
