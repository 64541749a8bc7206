// The one place of the web side where a number changes unit. Answers are in mm and deg; a reader may want inches. Units, scales
// and decimals are those of the command line (engine/output/shown.cpp).

export type LengthUnit = "mm" | "inch";

/** Exact by definition. */
const kMmPerInch = 25.4;
const kMmPerFoot = 304.8;
const kDegPerTurn = 360;

/** The travel that the engine's rates over a bump are told for. */
const kBump_mm = 25;

export function fromMm(mm: number, unit: LengthUnit): number {
  return unit === "inch" ? mm / kMmPerInch : mm;
}

export function toMm(length: number, unit: LengthUnit): number {
  return unit === "inch" ? length * kMmPerInch : length;
}

/** A pixel of CSS is a 96th of an inch: so many mm of paper fill so many pixels. */
export function pixelsToMm(pixels: number): number {
  return (pixels * kMmPerInch) / 96;
}

/** How numbers of one of the engine's units are shown. */
export interface ShownUnit {
  /** As written behind the number; may be empty. */
  readonly symbol: string;
  /** From the answer's number to the shown one. */
  readonly scale: number;
  /** Places after the point that a shop can use. */
  readonly decimals: number;
  /** From here on (as shown) one place less. */
  readonly coarseFrom: number;
}

function shown(
  symbol: string,
  scale: number,
  decimals: number,
  coarseFrom = Number.POSITIVE_INFINITY,
): ShownUnit {
  return { symbol, scale, decimals, coarseFrom };
}

const kMetric: Readonly<Record<string, ShownUnit>> = {
  mm: shown("mm", 1, 1),
  deg: shown("deg", 1, 2, 10),
  "deg per 25 mm": shown("deg per 25 mm", 1, 3, 10),
  "deg per deg": shown("deg per deg", 1, 3, 10),
  "to 1": shown("to 1", 1, 2),
  turns: shown("turns", 1, 2),
};

const kInch: Readonly<Record<string, ShownUnit>> = {
  ...kMetric,
  mm: shown("in", 1 / kMmPerInch, 2),
  "deg per 25 mm": shown("deg per inch", kMmPerInch / kBump_mm, 3, 10),
};

/** How the engine's `unit` is shown; a unit that the list does not know is shown as it is. */
export function shownUnit(unit: string, lengths: LengthUnit): ShownUnit {
  const list = lengths === "inch" ? kInch : kMetric;
  return list[unit] ?? shown(unit, 1, 2);
}

/** Places for a number, or for a column of which this is the largest. */
export function decimalsFor(unit: ShownUnit, largest: number): number {
  return Math.abs(largest * unit.scale) >= unit.coarseFrom ? unit.decimals - 1 : unit.decimals;
}

/** "12.4", never "-0.0". */
export function numberText(unit: ShownUnit, value: number, decimals: number): string {
  const text = (value * unit.scale).toFixed(decimals);
  return /[1-9]/.test(text) ? text : text.replace("-", "");
}

/** "35.4 mm" or "1.39 in". */
export function lengthText(mm: number, lengths: LengthUnit): string {
  const unit = shownUnit("mm", lengths);
  return `${numberText(unit, mm, unit.decimals)} ${unit.symbol}`;
}

/** Sizes of the units that text may carry, in mm or deg, by every spelling that the engine takes. */
export interface SpelledUnit {
  readonly kind: "length" | "angle";
  readonly size: number;
}

const kLengths: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  m: 1000,
  in: kMmPerInch,
  inch: kMmPerInch,
  inches: kMmPerInch,
  '"': kMmPerInch,
  ft: kMmPerFoot,
  foot: kMmPerFoot,
  feet: kMmPerFoot,
  "'": kMmPerFoot,
};

const kAngles: Readonly<Record<string, number>> = {
  deg: 1,
  degree: 1,
  degrees: 1,
  "\u00b0": 1,
  min: 1 / 60,
  minute: 1 / 60,
  minutes: 1 / 60,
  "\u2032": 1 / 60,
  rad: 180 / Math.PI,
  turn: kDegPerTurn,
  turns: kDegPerTurn,
};

export function unitSpelled(text: string): SpelledUnit | undefined {
  const length = Object.hasOwn(kLengths, text) ? kLengths[text] : undefined;
  if (length !== undefined) return { kind: "length", size: length };
  const angle = Object.hasOwn(kAngles, text) ? kAngles[text] : undefined;
  if (angle !== undefined) return { kind: "angle", size: angle };
  return undefined;
}
