// The height strips: upright charts beside one rule, all with the same heights. The line across them is the present height; it
// can be dragged, and it is what the keyboard moves.

import type { Quantity, Strips, ViewAnswer } from "../engine.ts";
import { type LengthUnit, shownUnit } from "../units.ts";
import { element, setAttribute } from "./dom.ts";
import { Measured } from "./measured.ts";
import { type Range, Rule, ruleHeights } from "./rule.ts";
import { Strip } from "./strip.ts";
import { refusedRuns, scale } from "./strip_scale.ts";

export interface StripContents {
  readonly strips: Strips | undefined;
  readonly view: ViewAnswer | undefined;
  readonly before: Strips | undefined;
  readonly other: Strips | undefined;
  readonly units: LengthUnit;
  readonly height_mm: number;
  readonly still: boolean;
}

// [px]
/** As style.css has it. */
const kHead = 76;
const kLeastPlot = 80;
const kTop = 8;
const kFoot = 44;

/** A step by key, and by page key [mm]. */
const kStep = 1;
const kPage = 25;

export class StripPanel {
  readonly element: HTMLElement;
  private readonly body = element("div", { class: "strip-body" });
  private readonly rule = new Rule();
  private readonly slider: HTMLElement;
  private readonly refusals = element("ul", { class: "refusals" });
  private readonly strips = new Map<string, Strip>();
  private readonly measured: Measured;
  private range: Range = [0, 1];

  constructor(
    private readonly changeHeight: (change: (height_mm: number) => number) => void,
    resized: () => void,
  ) {
    this.slider = element("div", {
      class: "rule-slider",
      role: "slider",
      tabindex: 0,
      "aria-label": "Height",
      "aria-orientation": "vertical",
    });
    this.slider.append(this.rule.svg);
    this.body.append(this.slider);
    this.element = element("div", { class: "strips" }, this.body, this.refusals);
    this.slider.addEventListener("keydown", (event) => this.key(event));
    this.body.addEventListener("pointerdown", (event) => this.down(event));
    this.body.addEventListener("pointermove", (event) => {
      if (this.body.hasPointerCapture(event.pointerId)) this.toPointer(event);
    });
    this.measured = new Measured(resized);
    this.measured.watch(this.body);
  }

  show(contents: StripContents): void {
    const { strips, view, units } = contents;
    if (!strips || !view) return;
    this.range = view.height_range_mm;
    const plot = this.plotHeight();
    const y = scale({ least: this.range[0], most: this.range[1] }, kTop + plot, kTop);
    this.rule.show(this.range, units, y, { top: kTop, plot, foot: kFoot });
    this.showStrips(y, plot, contents, strips, view);
    this.showRefusals(strips);
    const height = clamp(contents.height_mm, this.range);
    this.rule.point(y(height));
    setAttribute(this.slider, "aria-valuemin", Math.round(this.range[0]));
    setAttribute(this.slider, "aria-valuemax", Math.round(this.range[1]));
    setAttribute(this.slider, "aria-valuenow", Math.round(height));
    const unit = shownUnit("mm", units);
    setAttribute(
      this.slider,
      "aria-valuetext",
      `${(height * unit.scale).toFixed(unit.decimals)} ${unit.symbol}`,
    );
  }

  private plotHeight(): number {
    return Math.max(kLeastPlot, this.measured.of(this.body).height - kHead - kTop - kFoot);
  }

  private showStrips(
    y: (height: number) => number,
    plot: number,
    contents: StripContents,
    strips: Strips,
    view: ViewAnswer,
  ): void {
    const names = new Set(strips.columns.map((column) => column.name));
    for (const [name, strip] of this.strips) {
      if (names.has(name)) continue;
      strip.element.remove();
      this.measured.forget(strip.svg);
      this.strips.delete(name);
    }
    const quantities = new Map(view.quantities.map((quantity) => [quantity.name, quantity]));
    const runs = refusedRuns(strips.heights_mm, strips.refused);
    const gridHeights = ruleHeights(this.range, contents.units);
    let last: Element = this.slider;
    for (const column of strips.columns) {
      const quantity = quantities.get(column.name) as Quantity;
      let strip = this.strips.get(column.name);
      if (!strip) {
        strip = new Strip();
        this.strips.set(column.name, strip);
        this.measured.watch(strip.svg);
      }
      if (last.nextElementSibling !== strip.element) last.after(strip.element);
      last = strip.element;
      strip.show({
        quantity,
        units: contents.units,
        heights_mm: strips.heights_mm,
        present: column.values,
        before: columnOf(contents.before, column.name),
        other: columnOf(contents.other, column.name),
        otherHeights_mm: contents.other?.heights_mm ?? [],
        beforeHeights_mm: contents.before?.heights_mm ?? [],
        bands: view.bands.filter((band) => band.quantity === column.name),
        runs,
        gridHeights,
        height_mm: isWithin(contents.height_mm, this.range) ? contents.height_mm : undefined,
        value: view.values?.[column.name],
        width: this.measured.of(strip.svg).width,
        still: contents.still,
        frame: { y, top: kTop, plot, foot: kFoot },
      });
    }
  }

  private showRefusals(strips: Strips): void {
    const words = refusedRuns(strips.heights_mm, strips.refused).map((run) => run.text);
    if (this.refusals.dataset.words === words.join("\n")) return;
    this.refusals.dataset.words = words.join("\n");
    this.refusals.replaceChildren(...words.map((text) => element("li", {}, text)));
  }

  private key(event: KeyboardEvent): void {
    const [low, high] = this.range;
    const changes: Readonly<Record<string, (height: number) => number>> = {
      ArrowUp: (height) => height + kStep,
      ArrowRight: (height) => height + kStep,
      ArrowDown: (height) => height - kStep,
      ArrowLeft: (height) => height - kStep,
      PageUp: (height) => height + kPage,
      PageDown: (height) => height - kPage,
      Home: () => low,
      End: () => high,
    };
    const change = changes[event.key];
    if (!change) return;
    event.preventDefault();
    this.changeHeight((height) => clamp(change(height), this.range));
  }

  private down(event: PointerEvent): void {
    const inPlot = (event.target as Element).closest("svg");
    if (!inPlot || event.button !== 0) return;
    this.body.setPointerCapture(event.pointerId);
    this.slider.focus({ preventScroll: true });
    event.preventDefault();
    this.toPointer(event);
  }

  private toPointer(event: PointerEvent): void {
    const plot = this.plotHeight();
    const box = this.rule.svg.getBoundingClientRect();
    const share = 1 - (event.clientY - box.top - kTop) / plot;
    const height = this.range[0] + share * (this.range[1] - this.range[0]);
    const rounded = Math.round(clamp(height, this.range) * 10) / 10;
    this.changeHeight(() => rounded);
  }
}

function columnOf(
  strips: Strips | undefined,
  name: string,
): readonly (number | null)[] | undefined {
  return strips?.columns.find((column) => column.name === name)?.values;
}

/** Within what the slider can be set to: ends are told with rounding. */
function isWithin(value: number, [low, high]: Range): boolean {
  return value >= low - 1e-6 && value <= high + 1e-6;
}

function clamp(value: number, [low, high]: Range): number {
  return Math.min(Math.max(value, low), high);
}
