// What a person types into a number field: "100", "4 in", "35 1/2 in", "4 deg 30 min", "1 turn". The grammar is that of truck
// files (engine/base/quantity_text.h); besides, a bare number is taken in the field's own unit.

import { unitSpelled } from "../units.ts";

export type QuantityKind = "length" | "angle";

/** `value` is in mm or deg. */
export type ReadQuantity =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly what: string };

const kNumber = /^(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?/i;
const kFraction = /^(\d{1,9})\/(\d{1,9})(?!\d)/;
const kUnit = /^[^\s\d.+-]+/;

function fault(what: string): ReadQuantity {
  return { ok: false, what };
}

/** Walks over the text from its front. */
class Reader {
  constructor(private rest: string) {
    this.rest = rest.trim();
  }

  get done(): boolean {
    return this.rest === "";
  }

  startsWith(text: string): boolean {
    return this.rest.startsWith(text);
  }

  take(pattern: RegExp): RegExpMatchArray | null {
    const match = this.rest.match(pattern);
    if (match) this.rest = this.rest.slice(match[0].length).trimStart();
    return match;
  }
}

/** One number: a decimal, a fraction, or a whole number and a fraction. A text says what is wrong. */
function takeNumber(reader: Reader): number | string {
  const whole = reader.take(/^\d+\s+(?=\d+\/)/);
  const fraction = reader.take(kFraction);
  if (fraction) {
    const top = Number(fraction[1]);
    const bottom = Number(fraction[2]);
    if (bottom === 0 || top >= bottom) return "write a fraction below 1, such as 35 1/2";
    return Number(whole?.[0] ?? 0) + top / bottom;
  }
  const number = reader.take(kNumber);
  if (!number) return "a number is missing: write for example 100 or 4 in";
  if (reader.startsWith(",")) return "write the decimal point as a point: 35.5";
  if (reader.startsWith("/")) return "write a fraction below 1, such as 35 1/2";
  return Number(number[0]);
}

/** Reads `text`, whose bare numbers have the size of `bareUnit` ("mm", "in", "deg"). */
export function readQuantity(text: string, kind: QuantityKind, bareUnit: string): ReadQuantity {
  const reader = new Reader(text);
  const negative = reader.take(/^[+-]/)?.[0] === "-";
  if (reader.done) return fault("there is no number: write for example 100 or 4 in");
  let sum = 0;
  let smallest = Number.POSITIVE_INFINITY;
  while (!reader.done) {
    const number = takeNumber(reader);
    if (typeof number === "string") return fault(number);
    const spelled = reader.take(kUnit)?.[0];
    if (spelled === undefined && (smallest !== Number.POSITIVE_INFINITY || !reader.done)) {
      return fault("a unit is missing after a number");
    }
    const unit = unitSpelled(spelled ?? bareUnit);
    if (!unit) return fault(`no unit is called '${spelled}'`);
    if (unit.kind !== kind) {
      return fault(kind === "length" ? "a length is wanted here" : "an angle is wanted here");
    }
    if (unit.size >= smallest) return fault("write the larger unit first: 2 ft 3 in");
    smallest = unit.size;
    sum += number * unit.size;
  }
  if (!Number.isFinite(sum)) return fault("the number is too large");
  return { ok: true, value: negative ? -sum : sum };
}
