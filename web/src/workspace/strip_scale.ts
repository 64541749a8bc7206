// Where values and heights lie in a strip. A strip stands upright: height runs up, the value across.

export interface Span {
  readonly least: number;
  readonly most: number;
}

/** A share of the whole that stays free on either side. */
const kMargin = 0.06;

/** The least span that a unit is drawn over, so that rounding errors do not look like a curve. */
export function leastSpan(unit: string): number {
  switch (unit) {
    case "mm":
      return 4;
    case "deg":
      return 1;
    case "to 1":
      return 1;
    default:
      return 0.1;
  }
}

/** Spans all values and bounds that are there, no less than `least` wide. */
export function spanOf(
  columns: readonly (readonly (number | null)[])[],
  bounds: readonly (number | null)[],
  least: number,
): Span {
  const all = [...columns.flat(), ...bounds].filter((value) => value !== null);
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const value of all) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  if (low > high) return { least: -least / 2, most: least / 2 };
  const missing = Math.max(0, least - (high - low));
  const margin = Math.max(high - low, least) * kMargin;
  return { least: low - missing / 2 - margin, most: high + missing / 2 + margin };
}

/** Bounds that are worth showing: those within as much again of what the values span. A wide band would flatten the curve. */
export function nearBounds(
  values: readonly (number | null)[],
  bounds: readonly (number | null)[],
  least: number,
): (number | null)[] {
  const span = spanOf([values], [], least);
  const reach = span.most - span.least;
  return bounds.filter(
    (bound) => bound !== null && bound > span.least - reach && bound < span.most + reach,
  );
}

export function union(a: Span, b: Span): Span {
  return { least: Math.min(a.least, b.least), most: Math.max(a.most, b.most) };
}

/** Maps a span onto pixels; `to` may run down. */
export function scale(span: Span, from: number, to: number): (value: number) => number {
  const width = span.most - span.least;
  return (value) => from + ((value - span.least) / width) * (to - from);
}

/** The curve as path data: a gap where a height has no value. */
export function curveData(
  values: readonly (number | null)[],
  heights: readonly number[],
  x: (value: number) => number,
  y: (height: number) => number,
): string {
  let data = "";
  let pen = "M";
  values.forEach((value, i) => {
    if (value === null) {
      pen = "M";
      return;
    }
    data += `${pen}${x(value).toFixed(1)} ${y(heights[i] as number).toFixed(1)}`;
    pen = "L";
  });
  return data;
}

/** Round steps so that about `count` of them fill the span: 1, 2 or 5 times a power of ten. */
export function tickStep(span: number, count: number): number {
  const raw = span / count;
  const power = 10 ** Math.floor(Math.log10(raw));
  const lead = raw / power;
  const round = lead <= 1 ? 1 : lead <= 2 ? 2 : lead <= 5 ? 5 : 10;
  return round * power;
}

/** Multiples of the step within the span. */
export function ticks(span: Span, step: number): number[] {
  // Plus zero: -0 is no name for a tick.
  const first = Math.ceil(span.least / step - 1e-9) + 0;
  const last = Math.floor(span.most / step + 1e-9);
  const found: number[] = [];
  for (let i = first; i <= last; i += 1) found.push(i * step);
  return found;
}

export interface Refused {
  readonly height_mm: number;
  readonly text: string;
}

/** Runs of neighbouring heights that cannot be had, lowest first, each with the reason of its first. */
export function refusedRuns(
  heights: readonly number[],
  refused: readonly Refused[],
): { readonly from_mm: number; readonly to_mm: number; readonly text: string }[] {
  const reasons = new Map(refused.map((one) => [one.height_mm, one.text]));
  const runs: { from_mm: number; to_mm: number; text: string }[] = [];
  let open: { from_mm: number; to_mm: number; text: string } | undefined;
  for (const height of heights) {
    const text = reasons.get(height);
    if (text === undefined) {
      open = undefined;
    } else if (open) {
      open.to_mm = height;
    } else {
      open = { from_mm: height, to_mm: height, text };
      runs.push(open);
    }
  }
  return runs;
}
