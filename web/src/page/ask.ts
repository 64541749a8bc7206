// Questions that this page asks in many places, and what it does with faults: it throws them, in the engine's words.

import {
  type AnswerTo,
  type Engine,
  type Fault,
  isFailure,
  type PoseInputs,
  type Question,
  type ViewAnswer,
  type ViewQuestion,
  type ViewWanted,
} from "../engine.ts";

function faultText({ file, line, what }: Fault): string {
  return file === "" || line === 0 ? what : `${file}:${line}: ${what}`;
}

export async function ask<Q extends Question>(engine: Engine, question: Q): Promise<AnswerTo<Q>> {
  const answer = await engine.ask(question);
  if (!isFailure(answer)) return answer;
  const faults = answer.faults.filter(({ severity }) => severity === "error");
  throw new Error(faults.map(faultText).join("; ") || "the engine gave no answer");
}

/** Pictures are asked for on paper of this width; its height is the picture's. */
const kPaper_mm = 200;

/** From behind and level, as the driver sits: the truck's left is on the left hand side. */
export function fromBehind(ratio: number): ViewWanted {
  return pictorial(ratio, 180, 0);
}

/** From ahead, turned towards the truck's left and tilted up. */
export function pictorial(ratio: number, turn_deg: number, tilt_deg: number): ViewWanted {
  return { view: "pictorial", turn_deg, tilt_deg, ...paper(ratio) };
}

export function fromAbove(ratio: number): ViewWanted {
  return { view: "top", ...paper(ratio) };
}

export function fromTheLeft(ratio: number): ViewWanted {
  return { view: "side", ...paper(ratio) };
}

function paper(ratio: number): { paper_mm: [number, number]; hidden: boolean } {
  return { paper_mm: [kPaper_mm, kPaper_mm / ratio], hidden: false };
}

export function askView(
  engine: Engine,
  file: string,
  pose: PoseInputs & Pick<ViewQuestion, "loose">,
  views: readonly ViewWanted[],
): Promise<ViewAnswer> {
  return ask(engine, { ask: "view", file, views, ...pose });
}
