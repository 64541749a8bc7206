// The three questions, answered, and the cautions.

import { chapter } from "../chapter.ts";
import { html } from "../dom.ts";

export interface Answered {
  readonly question: string;
  readonly answer: Node;
}

export function recapChapter(answered: readonly Answered[]): HTMLElement {
  return chapter({
    id: "recap",
    title: "In three answers",
    says: [],
    shows: answered.map(({ question, answer }) =>
      html("div", { class: "answer" }, html("h3", {}, question), answer),
    ),
  });
}

const kOfThePage = [
  "The pictures come from numbers in a file: stiff parts, no slack, no load. A real truck bends, wears and is built a little differently.",
  "Whether it is strong enough, and whether anything touches, was not looked at.",
];

/** Where no answer brings its own. */
export const kCautions = [
  "Steering and suspension can kill. A page like this is no approval of any truck. Have a qualified engineer review the design, and qualified people weld, fasten and inspect it.",
  "Local law on lift, lights, tyres and steering decides what may drive on the road. A mechanism may be under patent.",
  "After fitting: recheck torques and alignment, turn lock to lock at every height, road test in steps.",
];

/** What this page is not, and the cautions that every answer carries. */
export function cautions(carried: readonly string[]): HTMLElement {
  const lines = [...kOfThePage, ...carried].map((text) => html("li", {}, text));
  return chapter({
    id: "cautions",
    title: "Before you believe it",
    says: [],
    shows: [html("ul", { class: "cautions" }, ...lines)],
  });
}
