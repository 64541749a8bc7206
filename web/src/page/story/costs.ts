// What a bar that folds costs: whose numbers are told, and what carelessness does to it.

import type { CompareAnswer } from "../../engine.ts";
import { ask } from "../ask.ts";
import type { CostNumbers } from "../chapters/costs.ts";
import { looseChapter } from "../chapters/loose.ts";
import { kLean } from "../chapters/move_kinds.ts";
import { moveChapter } from "../chapters/moves.ts";
import type { Opening } from "../chapters/opening.ts";
import { pairOf } from "../comparison.ts";
import { kExample } from "../examples.ts";
import { slidesOf } from "../say/costs.ts";
import { wheelVerdict } from "../say/verdict.ts";
import { meetTruck, type Show, type Truck } from "../trucks.ts";
import { compareIn, kWheel } from "./compared.ts";

/** A truck without and one with guided bars, for what the latter cost: the two of the page if they are that, else made up. */
export async function costNumbers(show: Show, given: CompareAnswer): Promise<CostNumbers> {
  const places = given.trucks.map((truck) => slidesOf(truck).length);
  const order = places[0] === 0 && places[1] ? [0, 1] : places[1] === 0 && places[0] ? [1, 0] : [];
  const [plain, guided] = order;
  if (plain === undefined || guided === undefined) {
    const files = [kExample.differ, kExample.guided] as const;
    const answer = await compareIn(show.engine, files, "mm");
    return { answer, ...(await studyBoth(show, files)), whose: "Numbers of two made-up trucks." };
  }
  const files = [show.pair[plain]?.file ?? "", show.pair[guided]?.file ?? ""] as const;
  return {
    answer: inOrder(given, [plain, guided]),
    ...(await studyBoth(show, files)),
    whose: "Numbers of the two trucks above.",
  };
}

/** A comparison of two trucks, with the trucks in this order. */
function inOrder(answer: CompareAnswer, places: readonly [number, number]): CompareAnswer {
  return {
    ...answer,
    trucks: places.map((place) => answer.trucks[place]).filter((truck) => truck !== undefined),
    comparison: answer.comparison.map((row) => ({
      ...row,
      worst: places.map((place) => row.worst[place] ?? null),
      best: row.best.map((place) => places.indexOf(place)).filter((place) => place >= 0),
    })),
  };
}

async function studyBoth(
  show: Show,
  files: readonly [string, string],
): Promise<Pick<CostNumbers, "checks" | "sweeps">> {
  const [a, b] = files;
  const check = (file: string) => ask(show.engine, { ask: "check", file });
  const sweep = (file: string) => ask(show.engine, { ask: "sweep", file });
  return { checks: [await check(a), await check(b)], sweeps: [await sweep(a), await sweep(b)] };
}

/** How the same bars do where they were not thought through: in a lean, and with the keeper left out. */
export async function carelessChapters(show: Show, careful: Truck): Promise<Opening[]> {
  const truck = await meetTruck(show.engine, kExample.loose);
  const check = await ask(show.engine, { ask: "check", file: kExample.loose });
  const motion = check.loose.find(({ idle }) => !idle);
  const madeUp = `A made-up truck, “${truck.name}”, to show what happens.`;
  const compared = await compareIn(show.engine, [careful.file, truck.file], "mm");
  const straightUp = wheelVerdict(pairOf(compared, kWheel));
  const lean = moveChapter({ ...show, pair: [careful, truck] }, kLean, {
    id: "careless-lean",
    title: "Put it in carelessly, and a lean steers",
    says: [
      "Both trucks here have folding bars. In one, the bar that holds the axle has its free end as high as the end of the steering bar. In the other it is far below.",
      `${straightUp} Now lean them.`,
    ],
    caption: "Two made-up trucks, to show what happens.",
  });
  return motion ? [lean, looseChapter(show, truck, motion, madeUp)] : [lean];
}
