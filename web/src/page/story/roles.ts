// What is known of the trucks that may show an idea.

import type { CompareAnswer } from "../../engine.ts";
import type { Cast, Role } from "../cast.ts";
import { rowOf } from "../comparison.ts";
import { kExample } from "../examples.ts";
import { reachesAll } from "../say/reach.ts";
import { meetTruck, type Show, type Truck } from "../trucks.ts";
import { compareIn, kWalk, kWheel } from "./compared.ts";

function worstOf(answer: CompareAnswer, name: string, place: number): number | null {
  return rowOf(answer, name)?.worst[place] ?? null;
}

export function roleOf(truck: Truck, given: boolean, answer: CompareAnswer, place: number): Role {
  const swept = answer.trucks[place];
  const whole = swept !== undefined && reachesAll(swept);
  return {
    truck,
    given,
    wheel_deg: whole ? worstOf(answer, kWheel, place) : null,
    walk_mm: whole ? worstOf(answer, kWalk, place) : null,
  };
}

export async function exampleCast(show: Show): Promise<Cast> {
  const files = [kExample.differ, kExample.agree, kExample.guided];
  const answer = await compareIn(show.engine, files, "mm");
  const role = async (file: string, place: number) =>
    roleOf(await meetTruck(show.engine, file), false, answer, place);
  return {
    differ: await role(kExample.differ, 0),
    agree: await role(kExample.agree, 1),
    guided: await role(kExample.guided, 2),
  };
}
