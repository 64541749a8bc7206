// The upright rule that the strips stand beside: heights in the reader's unit, and a pointer at the present one.

import { fromMm, type LengthUnit, toMm } from "../units.ts";
import { setAttribute, svgElement } from "./dom.ts";
import { tickStep, ticks } from "./strip_scale.ts";

/** Lowest and highest height [mm]. */
export type Range = readonly [number, number];

// [px]
const kWidth = 46;
const kLong = 14;
const kMiddle = 10;
const kShort = 6;

const kTicks = 5;
/** Fine marks to a tick; every fifth is longer. */
const kFine = 10;

function spanIn([low, high]: Range, units: LengthUnit) {
  return { least: fromMm(low, units), most: fromMm(high, units) };
}

function stepOf(range: Range, units: LengthUnit): number {
  const span = spanIn(range, units);
  return tickStep(span.most - span.least, kTicks);
}

/** Heights at which the rule has a number [mm]. */
export function ruleHeights(range: Range, units: LengthUnit): number[] {
  return ticks(spanIn(range, units), stepOf(range, units)).map((tick) => toMm(tick, units));
}

export class Rule {
  readonly svg = svgElement("svg", { class: "rule", width: kWidth });
  private readonly marks = svgElement("g");
  private readonly pointer = svgElement("path", { class: "rule-pointer" });
  private drawnOf = "";

  constructor() {
    this.svg.append(this.marks, this.pointer);
  }

  /** `y`: where a height is, from the top down; the plot is `plot` high and has a foot below it. */
  show(
    range: Range,
    units: LengthUnit,
    y: (height_mm: number) => number,
    frame: { readonly top: number; readonly plot: number; readonly foot: number },
  ): void {
    const key = JSON.stringify([range, units, frame]);
    if (key === this.drawnOf) return;
    this.drawnOf = key;
    setAttribute(this.svg, "height", frame.top + frame.plot + frame.foot);
    const fine = stepOf(range, units) / kFine;
    const at = (value: number) => y(toMm(value, units)).toFixed(1);
    const marks: SVGElement[] = ticks(spanIn(range, units), fine).map((value) => {
      const long = Math.round(value / fine) % 5 === 0;
      return svgElement("path", { d: `M${kWidth} ${at(value)}h${-(long ? kMiddle : kShort)}` });
    });
    for (const tick of ticks(spanIn(range, units), stepOf(range, units))) {
      marks.push(...this.numbered(tick, at(tick)));
    }
    const bottom = frame.top + frame.plot;
    const unit = svgElement(
      "text",
      { x: kWidth - 2, y: bottom + 20, "text-anchor": "end", class: "rule-unit" },
      units === "inch" ? "in" : "mm",
    );
    const edge = svgElement("path", { class: "rule-edge", d: `M${kWidth} ${frame.top}V${bottom}` });
    this.marks.replaceChildren(...marks, edge, unit);
  }

  point(y: number): void {
    setAttribute(this.pointer, "transform", `translate(0 ${y.toFixed(1)})`);
  }

  private numbered(tick: number, y: string): SVGElement[] {
    return [
      svgElement("path", { class: "rule-tick", d: `M${kWidth} ${y}h${-kLong}` }),
      svgElement(
        "text",
        { x: kWidth - kLong - 3, y, "text-anchor": "end", "dominant-baseline": "central" },
        String(Number(tick.toPrecision(6))),
      ),
    ];
  }
}
