// Every limit with its margin and the pose where it is worst; from there one goes to that pose.

import type { Limit, Request, SweepAnswer } from "../engine.ts";
import type { LengthUnit } from "../units.ts";
import { button, element, setText } from "./dom.ts";
import type { Study } from "./findings.ts";
import { type Told, valueText } from "./shown_value.ts";

/** The unit alone: what a margin is told in has no side. */
function margin(limit: Limit, units: LengthUnit): string {
  if (limit.margin === null) return "-";
  const amount = valueText(
    { unit: limit.unit, positive: "", negative: "" },
    Math.abs(limit.margin),
    units,
  );
  return limit.margin < 0 ? `${amount} too far` : `${amount} to spare`;
}

/** The limit's quantity: how its sign is told. */
function toldAs(limit: Limit, { quantities }: SweepAnswer): Told {
  const plain = { unit: limit.unit, positive: "", negative: "" };
  return quantities.find((quantity) => quantity.words === limit.words) ?? plain;
}

function allowed({ min, max }: Limit, told: Told, units: LengthUnit): string {
  if (min === null && max === null) return "every pose";
  if (min === null) return `up to ${valueText(told, max, units)}`;
  if (max === null) return `from ${valueText(told, min, units)}`;
  return `${valueText(told, min, units)} to ${valueText(told, max, units)}`;
}

export class LimitsBoard {
  readonly element: HTMLElement;
  private readonly state = element("p", { class: "study-state", role: "status" });
  private readonly story = element("ul", { class: "story" });
  private readonly rows = element("tbody");
  private readonly rest = element("div", { class: "limits-rest" });
  private shown: readonly unknown[] = [];

  constructor(private readonly goTo: (where: Request) => void) {
    const head = ["Limit", "Verdict", "Worst", "Allowed", "Margin", "Where"];
    this.element = element(
      "div",
      { class: "limits" },
      this.state,
      element(
        "table",
        { class: "board" },
        element("caption", { class: "visually-hidden" }, "Limits over the whole grid of poses"),
        element(
          "thead",
          {},
          element("tr", {}, ...head.map((words) => element("th", { scope: "col" }, words))),
        ),
        this.rows,
      ),
      this.rest,
      this.story,
    );
  }

  show(sweep: Study<SweepAnswer>, units: LengthUnit): void {
    setText(this.state, studyState(sweep));
    this.element.classList.toggle("is-stale", !sweep.fresh);
    const { answer } = sweep;
    if (answer === this.shown[0] && units === this.shown[1]) return;
    this.shown = [answer, units];
    const rows = answer?.limits.map((limit) => this.row(limit, toldAs(limit, answer), units));
    this.rows.replaceChildren(...(rows ?? []));
    this.story.replaceChildren(...(answer?.story ?? []).map((text) => element("li", {}, text)));
    this.rest.replaceChildren(...(answer ? this.others(answer) : []));
  }

  private row(limit: Limit, told: Told, units: LengthUnit): HTMLElement {
    const { where } = limit;
    const place = where
      ? button(limit.place_text ?? "", () => this.goTo(where), { class: "go" })
      : (limit.place_text ?? "");
    return element(
      "tr",
      { class: `verdict-${limit.verdict.replace(" ", "-")}` },
      element("th", { scope: "row" }, limit.words),
      element("td", { class: "verdict" }, limit.verdict),
      element("td", {}, valueText(told, limit.worst, units)),
      element("td", {}, allowed(limit, told, units)),
      element("td", { class: "number" }, margin(limit, units)),
      element("td", {}, place),
    );
  }

  private others(answer: SweepAnswer): HTMLElement[] {
    const others: HTMLElement[] = [
      element("p", {}, element("b", {}, "Not set: "), answer.not_set.join(", ") || "nothing"),
      element("p", {}, element("b", {}, "Not checked: "), answer.not_checked.join(", ")),
    ];
    if (answer.refused > 0) {
      const list = answer.refusals.map((refusal) =>
        element(
          "li",
          {},
          button(refusal.place_text, () => this.goTo(refusal.where), { class: "go" }),
          `: ${refusal.report.message ?? refusal.report.outcome}`,
        ),
      );
      const words = `${answer.refused} of ${answer.poses} poses cannot be had; the first of them:`;
      others.push(element("p", {}, words), element("ul", {}, ...list));
    }
    return others;
  }
}

/** "3 of 6 limits broken" for the drawer's front. */
export function limitsNote(sweep: Study<SweepAnswer>): string {
  const { answer } = sweep;
  if (!answer) return sweep.progress === undefined ? "" : "computing";
  const count = (verdict: Limit["verdict"]) =>
    answer.limits.filter((limit) => limit.verdict === verdict).length;
  const broken = count("broken") + count("not reached");
  const words = `${broken} broken, ${count("met")} met`;
  return sweep.fresh ? words : `${words} (before the change)`;
}

export function studyState(study: Study<unknown>): string {
  if (study.progress !== undefined) {
    return `Computing the whole grid: ${Math.round(study.progress * 100)} %`;
  }
  if (study.answer === undefined) return "Not computed yet.";
  return study.fresh ? "" : "Of the version before the last change.";
}
