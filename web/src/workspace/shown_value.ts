// A number of an answer as it is read: in the reader's unit, its sign in words. As engine/output/shown.cpp does it.

import type { Quantity } from "../engine.ts";
import { decimalsFor, type LengthUnit, numberText, shownUnit } from "../units.ts";

/** "to the left" is "left" beside a number. */
export function shortSide(side: string): string {
  return side.replace(/^to the /, "").replace(/ the road$/, "");
}

export type Told = Pick<Quantity, "unit" | "positive" | "negative">;

/** Number and side: "12.4 left", "-3.2" where the sign has no words, "0.0", "-" where the pose does not have it. */
export function cellText(
  quantity: Told,
  value: number | null | undefined,
  lengths: LengthUnit,
  largest = value ?? 0,
): string {
  if (value === null || value === undefined) return "-";
  const unit = shownUnit(quantity.unit, lengths);
  const decimals = decimalsFor(unit, largest);
  const plain = numberText(unit, value, decimals);
  if (!quantity.positive || !quantity.negative || !/[1-9]/.test(plain)) return plain;
  const side = value > 0 ? quantity.positive : quantity.negative;
  return `${numberText(unit, Math.abs(value), decimals)} ${shortSide(side)}`;
}

/** The same with its unit: "12.4 deg left". */
export function valueText(
  quantity: Told,
  value: number | null | undefined,
  lengths: LengthUnit,
): string {
  const cell = cellText(quantity, value, lengths);
  const symbol = shownUnit(quantity.unit, lengths).symbol;
  if (symbol === "" || value === null || value === undefined) return cell;
  return cell.replace(/^\S+/, (number) => `${number} ${symbol}`);
}

/** The name of a quantity with its unit, for heads of columns. */
export function headText(quantity: Pick<Quantity, "words" | "unit">, lengths: LengthUnit): string {
  const symbol = shownUnit(quantity.unit, lengths).symbol;
  return symbol === "" ? quantity.words : `${quantity.words}, ${symbol}`;
}
