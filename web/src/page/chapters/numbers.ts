// This truck, this kit: the engine's comparison as a table, the limits that the shop set, and what was not looked at.

import type { CompareAnswer, Sweep } from "../../engine.ts";
import { decimalsFor, type LengthUnit, numberText, shownUnit } from "../../units.ts";
import { chapter } from "../chapter.ts";
import type { Row } from "../comparison.ts";
import { html } from "../dom.ts";
import { liveBlock } from "../live.ts";
import type { Reader } from "../reader.ts";
import { quoted } from "../say/pair.ts";
import { refusedText } from "../say/reach.ts";
import { plainWords } from "../say/rows.ts";
import { list } from "../say/words.ts";

function valueText(row: Row, place: number, lengths: LengthUnit): string {
  const value = row.worst[place];
  if (typeof value !== "number") return "cannot be had";
  const unit = shownUnit(row.unit, lengths);
  const amount = numberText(unit, Math.abs(value), decimalsFor(unit, value));
  const sign = /[1-9]/.test(amount) ? (value > 0 ? row.positive : row.negative) : "";
  return [amount, unit.symbol, sign].filter((part) => part !== "").join(" ");
}

function cell(row: Row, place: number, lengths: LengthUnit): HTMLElement {
  const text = valueText(row, place, lengths);
  const mark = row.best.length === 0 ? "alike" : row.best.includes(place) ? "least" : "";
  if (mark === "") return html("td", {}, text);
  return html("td", { class: mark }, text, " ", html("b", {}, mark));
}

/** What it is of over the whole width, the values below it: a phone has no room for three columns. */
function rowGroup(row: Row, lengths: LengthUnit): HTMLElement {
  const plain = plainWords(row);
  const head = html("th", { scope: "rowgroup", colspan: row.worst.length }, plain ?? row.words);
  if (plain) head.append(html("small", {}, row.words));
  const cells = row.worst.map((_, place) => cell(row, place, lengths));
  return html("tbody", {}, html("tr", {}, head), html("tr", {}, ...cells));
}

function comparisonTable(answer: CompareAnswer, lengths: LengthUnit): HTMLElement {
  const names = answer.trucks.map(({ truck }) => html("th", { scope: "col" }, truck));
  return html(
    "table",
    {},
    html(
      "caption",
      {},
      "The worst that each truck does. “Least” is the smallest of its row, not a mark for the truck.",
    ),
    html("thead", {}, html("tr", {}, ...names)),
    ...answer.comparison.map((row) => rowGroup(row, lengths)),
  );
}

/** Where the second truck is no better than the first. */
export function asGoodText(answer: CompareAnswer): string {
  const [first, second] = answer.trucks;
  const alike = answer.comparison.filter((row) => row.best.length === 0);
  const better = answer.comparison.filter((row) => row.best.length === 1 && row.best[0] === 0);
  const names = [quoted(first?.truck ?? ""), quoted(second?.truck ?? "")];
  const told: string[] = [];
  if (alike.length > 0) told.push(`Alike in both: ${list(alike.map(({ words }) => words))}.`);
  if (better.length > 0) {
    told.push(
      `${names[0]} is the better of the two in: ${list(better.map(({ words }) => words))}.`,
    );
  }
  if (told.length === 0) return `In none of these rows is ${names[0]} as good as ${names[1]}.`;
  return told.join(" ");
}

const kVerdicts = ["met", "broken", "not reached", "not told"] as const;

/** "5 broken, 1 met" */
function countsOf(truck: Sweep<"compare">): string {
  const counts = kVerdicts.map((verdict) => {
    const count = truck.limits.filter((limit) => limit.verdict === verdict).length;
    return count === 0 ? "" : `${count} ${verdict}`;
  });
  return counts.filter((count) => count !== "").join(", ") || "none";
}

function limitsOf(truck: Sweep<"compare">): HTMLElement {
  const lines = truck.limits.map(({ verdict, words, text }) =>
    html("li", {}, html("b", {}, verdict), ` ${words}: ${text}`),
  );
  const refused = refusedText(truck);
  const notSet = truck.not_set.length === 0 ? "nothing of the usual" : list(truck.not_set);
  return html(
    "div",
    { class: "limits" },
    html("h3", {}, `Limits set for ${quoted(truck.truck)}: ${countsOf(truck)}`),
    html("details", {}, html("summary", {}, "Each limit"), html("ul", {}, ...lines)),
    ...(refused === "" ? [] : [html("p", {}, refused)]),
    html("p", {}, html("b", {}, "Not set: "), `${notSet}.`),
    html("p", {}, html("b", {}, "Not checked: "), `${list(truck.not_checked)}.`),
  );
}

/** `answerIn` gives the comparison with its sentences in the reader's unit. */
export function numbersChapter(
  reader: Reader,
  answerIn: (unit: LengthUnit) => CompareAnswer,
): HTMLElement {
  return chapter({
    id: "numbers",
    title: "The numbers, side by side",
    says: [
      "Nothing here is a mark for the whole. A number is good or bad only for what a truck is used for.",
    ],
    shows: [
      liveBlock(reader, "numbers", () => {
        const answer = answerIn(reader.unit);
        return [
          comparisonTable(answer, reader.unit),
          html("p", {}, asGoodText(answer)),
          ...answer.trucks.map(limitsOf),
        ];
      }),
    ],
  });
}
