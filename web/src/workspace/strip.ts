// One height strip: a quantity across, height up.

import type { Quantity, ViewAnswer } from "../engine.ts";
import { type LengthUnit, shownUnit } from "../units.ts";
import { element, setAttribute, setText, svgElement } from "./dom.ts";
import { shortSide, valueText } from "./shown_value.ts";
import {
  curveData,
  leastSpan,
  nearBounds,
  type refusedRuns,
  type Span,
  scale,
  spanOf,
  tickStep,
  ticks,
  union,
} from "./strip_scale.ts";

type Column = readonly (number | null)[];

export interface StripContent {
  readonly quantity: Quantity;
  readonly units: LengthUnit;
  readonly heights_mm: readonly number[];
  readonly present: Column;
  readonly before: Column | undefined;
  readonly beforeHeights_mm: readonly number[];
  readonly other: Column | undefined;
  readonly otherHeights_mm: readonly number[];
  readonly bands: ViewAnswer["bands"];
  readonly runs: ReturnType<typeof refusedRuns>;
  readonly gridHeights: readonly number[];
  /** The present height, where it is within the strip. */
  readonly height_mm: number | undefined;
  /** At the present pose. */
  readonly value: number | null | undefined;
  readonly width: number;
  /** While a point is being dragged the scale only grows, so that the curve is seen to move. */
  readonly still: boolean;
  readonly frame: {
    readonly y: (height: number) => number;
    readonly top: number;
    readonly plot: number;
    readonly foot: number;
  };
}

const kTickCount = 2;
const kSide_px = 6;

/** Left is drawn on the left: where positive is to the left, the axis runs the other way. */
function growsToTheLeft(quantity: Quantity): boolean {
  return quantity.positive.includes("left");
}

export class Strip {
  readonly element: HTMLElement;
  private readonly name = element("div", { class: "strip-name" });
  private readonly value = element("output", { class: "strip-value" });
  /** What its room is measured by. */
  readonly svg = svgElement("svg", { class: "strip-plot", "aria-hidden": "true" });
  private readonly ground = svgElement("g");
  private readonly before = svgElement("path", { class: "curve curve-before" });
  private readonly other = svgElement("path", { class: "curve curve-other" });
  private readonly present = svgElement("path", { class: "curve curve-present" });
  private readonly cursor = svgElement("path", { class: "cursor" });
  private readonly mark = svgElement("path", { class: "cursor-mark", d: "M0 -4L4 0L0 4L-4 0Z" });
  private drawnOf: readonly unknown[] = [];
  private groundOf = "";
  private span: Span = { least: 0, most: 0 };
  private x: (value: number) => number = () => 0;

  constructor() {
    this.svg.append(this.ground, this.before, this.other, this.present, this.cursor, this.mark);
    this.element = element(
      "div",
      { class: "strip" },
      element("div", { class: "strip-head" }, this.name, this.value),
      this.svg,
    );
  }

  show(content: StripContent): void {
    const { quantity, units, frame, width } = content;
    setText(this.name, quantity.words);
    setText(this.value, valueText(quantity, content.value, units));
    const key = [
      content.present,
      content.before,
      content.other,
      width,
      frame.plot,
      units,
      quantity.name,
    ];
    if (!sameList(key, this.drawnOf)) {
      this.drawnOf = key;
      this.draw(content);
    }
    const inside = content.height_mm !== undefined;
    const y = frame.y(content.height_mm ?? 0).toFixed(1);
    setAttribute(this.cursor, "d", inside ? `M0 ${y}H${width}` : "");
    const there = inside && content.value !== null && content.value !== undefined;
    const x = there ? clampTo(this.x(content.value), 3, width - 3) : 0;
    setAttribute(this.mark, "visibility", there ? "visible" : "hidden");
    setAttribute(this.mark, "transform", `translate(${x.toFixed(1)} ${y})`);
  }

  private draw(content: StripContent): void {
    const { quantity, frame, bands, width } = content;
    const least = leastSpan(quantity.unit);
    const columns = [content.present, content.before ?? [], content.other ?? []];
    const bounds = bands.flatMap((band) => [band.min, band.max]);
    const needed = spanOf(columns, nearBounds(columns.flat(), bounds, least), least);
    this.span = content.still ? union(this.span, needed) : needed;
    const reversed = growsToTheLeft(quantity);
    const [from, to] = reversed ? [width - kSide_px, kSide_px] : [kSide_px, width - kSide_px];
    this.x = scale(this.span, from, to);
    this.drawGround(content, reversed);
    const curve = (column: Column | undefined, heights: readonly number[]) =>
      column ? curveData(column, heights, this.x, frame.y) : "";
    setAttribute(this.before, "d", curve(content.before, content.beforeHeights_mm));
    setAttribute(this.other, "d", curve(content.other, content.otherHeights_mm));
    setAttribute(this.present, "d", curve(content.present, content.heights_mm));
  }

  /** All but the curves; most frames of a drag leave it as it is. */
  private drawGround(content: StripContent, reversed: boolean): void {
    const { quantity, units, frame, bands, runs, gridHeights, width } = content;
    const { top, plot, foot } = frame;
    const ends = gridHeights.map(frame.y);
    const key = JSON.stringify([
      this.span,
      quantity,
      units,
      top,
      plot,
      foot,
      bands,
      runs,
      ends,
      width,
    ]);
    if (key === this.groundOf) return;
    this.groundOf = key;
    setAttribute(this.svg, "height", top + plot + foot);
    this.ground.replaceChildren(
      ...this.drawBands(content, width),
      ...this.drawGrid(content, width),
      ...this.drawRefused(content, width),
      ...this.drawFoot(content, this.span, width, reversed),
    );
  }

  private drawBands({ bands, frame, quantity }: StripContent, width: number): SVGElement[] {
    const drawn: SVGElement[] = [];
    for (const { min, max } of bands) {
      // An open side reaches the edge.
      const [low, high] = growsToTheLeft(quantity) ? [width, 0] : [0, width];
      const ends = [min === null ? low : this.x(min), max === null ? high : this.x(max)].map((x) =>
        clampTo(x, 0, width),
      );
      const [left, right] = [Math.min(...ends), Math.max(...ends)];
      drawn.push(
        svgElement("rect", {
          class: "band",
          x: left.toFixed(1),
          y: frame.top,
          width: (right - left).toFixed(1),
          height: frame.plot,
        }),
      );
      for (const bound of [min, max]) {
        if (bound === null) continue;
        const x = this.x(bound);
        if (x < 0 || x > width) continue;
        const data = `M${x.toFixed(1)} ${frame.top}v${frame.plot}`;
        drawn.push(svgElement("path", { class: "band-edge", d: data }));
      }
    }
    return drawn;
  }

  private drawGrid({ gridHeights, frame }: StripContent, width: number): SVGElement[] {
    const across = gridHeights.map((height) => `M0 ${frame.y(height).toFixed(1)}H${width}`);
    const sides = `M0.5 ${frame.top}v${frame.plot}M${width - 0.5} ${frame.top}v${frame.plot}`;
    const zero = this.x(0);
    const lines: SVGElement[] = [
      svgElement("path", { class: "grid", d: across.join("") }),
      svgElement("path", { class: "grid", d: sides }),
    ];
    if (zero > 0 && zero < width) {
      const data = `M${zero.toFixed(1)} ${frame.top}v${frame.plot}`;
      lines.push(svgElement("path", { class: "zero", d: data }));
    }
    return lines;
  }

  private drawRefused({ runs, frame, heights_mm }: StripContent, width: number): SVGElement[] {
    const half = heights_mm.length > 1 ? ((heights_mm[1] ?? 0) - (heights_mm[0] ?? 0)) / 2 : 0;
    return runs.map((run) => {
      const top = Math.max(frame.top, frame.y(run.to_mm + half));
      const bottom = Math.min(frame.top + frame.plot, frame.y(run.from_mm - half));
      return svgElement("rect", {
        class: "refused",
        x: 0,
        y: top.toFixed(1),
        width,
        height: Math.max(1, bottom - top).toFixed(1),
      });
    });
  }

  private drawFoot(
    { quantity, units, frame }: StripContent,
    span: Span,
    width: number,
    reversed: boolean,
  ): SVGElement[] {
    const unit = shownUnit(quantity.unit, units);
    const shown = { least: span.least * unit.scale, most: span.most * unit.scale };
    const sided = quantity.positive !== "" && quantity.negative !== "";
    const y = frame.top + frame.plot;
    const foot: SVGElement[] = [];
    const step = tickStep(shown.most - shown.least, kTickCount);
    for (const tick of ticks(shown, step)) {
      const x = this.x(tick / unit.scale);
      const anchor = x < 12 ? "start" : x > width - 12 ? "end" : "middle";
      const text = Number((sided ? Math.abs(tick) : tick).toPrecision(6));
      foot.push(
        svgElement("path", { class: "tick", d: `M${x.toFixed(1)} ${y}v4` }),
        svgElement("text", { x: x.toFixed(1), y: y + 14, "text-anchor": anchor }, String(text)),
      );
    }
    if (sided) {
      const [left, right] = reversed
        ? [quantity.positive, quantity.negative]
        : [quantity.negative, quantity.positive];
      foot.push(
        svgElement("text", { class: "side", x: 2, y: y + 27 }, `\u2190 ${shortSide(left)}`),
        svgElement(
          "text",
          { class: "side", x: width - 2, y: y + 39, "text-anchor": "end" },
          `${shortSide(right)} \u2192`,
        ),
      );
    }
    return foot;
  }
}

function sameList(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((value, i) => value === b[i]);
}

function clampTo(value: number, low: number, high: number): number {
  return Math.min(Math.max(value, low), high);
}
