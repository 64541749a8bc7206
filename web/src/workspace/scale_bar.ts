// A bar of round length in the corner of a view: how large the truck is drawn.

import type { Drawing } from "../draw/drawing.ts";
import { fromMm, type LengthUnit, toMm } from "../units.ts";
import { setAttribute, setText, svgElement } from "./dom.ts";
import { tickStep } from "./strip_scale.ts";

// [mm of paper]
const kLongest = 40;
const kInset = 5;
const kGap = 1.5;
const kTick = 1.5;

export class ScaleBar {
  readonly element = svgElement("g", { class: "scale-bar" });
  private readonly line = svgElement("path");
  private readonly label = svgElement("text", { "font-size": "3" });

  constructor() {
    this.element.append(this.line, this.label);
  }

  show(drawing: Drawing, units: LengthUnit): void {
    const longest = fromMm(kLongest / drawing.scale, units);
    // Half of what fits, rounded up to 1, 2 or 5: between half and all of it.
    const round = tickStep(longest, 2);
    const length = toMm(round, units) * drawing.scale;
    const y = drawing.paper_mm[1] - kInset;
    const end = kInset + length;
    const data = `M${kInset} ${y - kTick}V${y}H${end.toFixed(2)}V${y - kTick}`;
    setAttribute(this.line, "d", data);
    setAttribute(this.label, "x", (end + kGap).toFixed(2));
    setAttribute(this.label, "y", y);
    setText(this.label, `${round} ${units === "inch" ? "in" : "mm"}`);
  }

  clear(): void {
    this.line.removeAttribute("d");
    setText(this.label, "");
  }
}
