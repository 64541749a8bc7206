// The ways in which the page moves two trucks: over a bump, in a lean, in a turn.

import type { PoseInputs, ViewAnswer } from "../../engine.ts";
import type { LengthUnit } from "../../units.ts";
import { type ColumnLook, kFromAbove, kFromBehind } from "../column.ts";
import { wheelTurned } from "../say/verdict.ts";
import { angle, heading, length, wheelPlace } from "../say/words.ts";
import type { Show } from "../trucks.ts";

/** A way of moving a truck: its slider, and what is asked and said of it. */
export interface Move {
  readonly slider: {
    readonly name: string;
    readonly say: (value: number, unit: LengthUnit) => string;
  };
  readonly play: string;
  readonly range: (show: Show) => readonly [number, number];
  /** Where the slider stands at first, and on paper. */
  readonly telling: (range: readonly [number, number]) => number;
  readonly pose: (value: number) => PoseInputs;
  readonly look: ColumnLook;
  /** What one truck's picture says; `before` is the same truck at rest. */
  readonly tell: (answer: ViewAnswer, before: ViewAnswer) => string;
  /** Whether the wheel is turned by the move, or by the reader. */
  readonly turnsWheel: boolean;
}

function bumpWords(value: number, unit: LengthUnit): string {
  if (Math.abs(value) < 0.5) return "standing level";
  return `${length(value, unit)} ${value > 0 ? "up" : "down"}`;
}

function leanWords(value: number): string {
  if (Math.abs(value) < 0.05) return "standing level";
  return `${angle(value)}, ${value > 0 ? "left" : "right"} side up`;
}

export function wheelOf(answer: ViewAnswer): number | undefined {
  return answer.values?.steering_wheel_off_centre_deg ?? undefined;
}

function tellTurned(answer: ViewAnswer, before: ViewAnswer): string {
  const [now, then] = [wheelOf(answer), wheelOf(before)];
  return now === undefined || then === undefined ? "" : wheelTurned(then, now);
}

function widest(ranges: readonly (readonly [number, number])[]): [number, number] {
  return [Math.min(...ranges.map(([low]) => low)), Math.max(...ranges.map(([, high]) => high))];
}

export const kBump: Move = {
  slider: { name: "Both wheels", say: bumpWords },
  play: "Play: bumps and dips",
  range: (show) => widest(show.pair.map((truck) => truck.travel)),
  telling: ([, bump]) => bump,
  pose: (travel_mm) => ({ travel_mm }),
  look: kFromBehind,
  tell: tellTurned,
  turnsWheel: true,
};

export const kLean: Move = {
  slider: { name: "Lean", say: leanWords },
  play: "Play: lean it",
  range: (show) => {
    const most = Math.max(...show.pair.map((truck) => truck.lean));
    return [-most, most];
  },
  telling: ([, most]) => most,
  pose: (lean_deg) => ({ lean_deg }),
  look: kFromBehind,
  tell: tellTurned,
  turnsWheel: true,
};

export const kTurn: Move = {
  slider: { name: "Steering wheels", say: wheelPlace },
  play: "Play: turn them",
  range: (show) => widest(show.pair.map((truck) => truck.steering ?? [0, 0])),
  telling: ([, left]) => left / 4,
  pose: (steering_wheel_deg) => ({ steering_wheel_deg }),
  look: kFromAbove,
  tell: (answer) => {
    const steer = answer.values?.mean_steer_deg;
    return typeof steer === "number" ? `Road wheels ${heading(steer)}` : "";
  },
  turnsWheel: false,
};
