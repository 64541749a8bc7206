// A drawing as SVG elements that are kept from one frame to the next: as few paths as colours and depth allow, or one for each
// part. Colours come from drawing.css; weights and dashes from the drawing itself.

import type { Drawing, Item, Layer } from "./drawing.ts";
import { dashes } from "./line_style.ts";
import { areaData, strokeData } from "./path_data.ts";

const kSvg = "http://www.w3.org/2000/svg";

export interface PaintOptions {
  readonly className?: string;
  /** Each part has paths of its own, so that it can be marked; else what looks alike shares a path, which is quicker. */
  readonly parts?: boolean;
}

function setIfChanged(element: Element, name: string, value: string): void {
  if (element.getAttribute(name) !== value) element.setAttribute(name, value);
}

interface Areas {
  readonly part: string;
  readonly areas: (readonly number[])[];
}

function eachAlone(items: readonly Item[]): Areas[] {
  return items.flatMap(({ part, area }) => (area ? [{ part, areas: [area] }] : []));
}

/** What drawing.css fills alike. */
function fillOf(part: string): string {
  if (part.startsWith("wheel")) return "wheel";
  return part === "frame" ? part : "";
}

/** Silhouettes that follow each other and are filled alike, told by the first one's part. */
function runsAlike(items: readonly Item[]): Areas[] {
  const runs: Areas[] = [];
  for (const { part, areas } of eachAlone(items)) {
    const last = runs.at(-1);
    if (last && fillOf(last.part) === fillOf(part)) last.areas.push(...areas);
    else runs.push({ part, areas: [...areas] });
  }
  return runs;
}

/** The strokes, silhouettes and texts of one layer. */
class PaintedLayer {
  readonly element = document.createElementNS(kSvg, "g");
  private readonly strokes = new Map<string, SVGPathElement>();
  private readonly areas: SVGPathElement[] = [];
  private readonly texts: SVGTextElement[] = [];
  private readonly areaGroup = document.createElementNS(kSvg, "g");

  constructor(
    name: string,
    private readonly parts: boolean,
  ) {
    this.element.setAttribute("class", `layer layer-${name}`);
    this.element.append(this.areaGroup);
  }

  style(layer: Layer): void {
    setIfChanged(this.element, "stroke-width", String(layer.weight_mm));
    setIfChanged(this.element, "stroke-dasharray", dashes(layer.line, layer.weight_mm));
  }

  show(items: readonly Item[], height: number): void {
    this.showStrokes(items, height);
    this.showAreas(items, height);
    this.showTexts(items, height);
  }

  private showStrokes(items: readonly Item[], height: number): void {
    const data = new Map<string, string>();
    for (const item of items) {
      const stroke = strokeData(item, height);
      const key = this.parts ? item.part : "";
      if (stroke) data.set(key, (data.get(key) ?? "") + stroke);
    }
    for (const [part, path] of this.strokes) {
      if (data.has(part)) continue;
      path.remove();
      this.strokes.delete(part);
    }
    for (const [part, stroke] of data) {
      setIfChanged(this.strokeOf(part), "d", stroke);
    }
  }

  private strokeOf(part: string): SVGPathElement {
    let path = this.strokes.get(part);
    if (!path) {
      path = document.createElementNS(kSvg, "path");
      path.setAttribute("class", "stroke");
      if (this.parts) path.dataset.part = part;
      this.strokes.set(part, path);
      this.element.append(path);
    }
    return path;
  }

  /** In the order given: what is nearer covers what is farther. */
  private showAreas(items: readonly Item[], height: number): void {
    const runs = this.parts ? eachAlone(items) : runsAlike(items);
    runs.forEach(({ part, areas }, i) => {
      let path = this.areas[i];
      if (!path) {
        path = document.createElementNS(kSvg, "path");
        path.setAttribute("class", "area");
        this.areas.push(path);
        this.areaGroup.append(path);
      }
      setIfChanged(path, "data-part", part);
      setIfChanged(path, "d", areas.map((area) => areaData(area, height)).join(""));
    });
    for (const path of this.areas.splice(runs.length)) path.remove();
  }

  private showTexts(items: readonly Item[], height: number): void {
    let count = 0;
    for (const item of items) {
      if (!item.text) continue;
      let element = this.texts[count];
      if (!element) {
        element = document.createElementNS(kSvg, "text");
        this.texts.push(element);
        this.element.append(element);
      }
      const [x, y] = item.text.at;
      const turn = item.text.turn_deg ?? 0;
      setIfChanged(element, "data-part", item.part);
      setIfChanged(element, "font-size", String(item.text.height_mm));
      setIfChanged(element, "text-anchor", item.text.anchor);
      setIfChanged(element, "transform", `translate(${x} ${height - y}) rotate(${-turn})`);
      if (element.textContent !== item.text.text) element.textContent = item.text.text;
      count += 1;
    }
    for (const element of this.texts.splice(count)) element.remove();
  }
}

/** One drawing in an SVG; several of them lie over each other, the last version below the present one. */
export class PaintedDrawing {
  readonly element = document.createElementNS(kSvg, "g");
  private readonly layers = new Map<string, PaintedLayer>();
  private readonly parts: boolean;

  constructor({ className = "", parts = true }: PaintOptions = {}) {
    this.parts = parts;
    this.element.setAttribute("class", `drawing ${className}`.trim());
  }

  show(drawing: Drawing): void {
    const items = new Map<string, Item[]>();
    for (const item of drawing.items) {
      const list = items.get(item.layer);
      if (list) list.push(item);
      else items.set(item.layer, [item]);
    }
    for (const layer of drawing.layers) {
      const painted = this.layerOf(layer.name);
      painted.style(layer);
      painted.show(items.get(layer.name) ?? [], drawing.paper_mm[1]);
    }
    for (const [name, painted] of this.layers) {
      if (!drawing.layers.some((layer) => layer.name === name)) painted.show([], 0);
    }
  }

  clear(): void {
    for (const painted of this.layers.values()) painted.show([], 0);
  }

  private layerOf(name: string): PaintedLayer {
    let painted = this.layers.get(name);
    if (!painted) {
      painted = new PaintedLayer(name, this.parts);
      this.layers.set(name, painted);
      this.element.append(painted.element);
    }
    return painted;
  }
}

/** An SVG whose user units are mm of the drawing's paper. */
export function createSheet(name: string): SVGSVGElement {
  const svg = document.createElementNS(kSvg, "svg");
  svg.setAttribute("class", "sheet");
  svg.setAttribute("role", "img");
  svg.setAttribute("aria-label", name);
  svg.setAttribute("preserveAspectRatio", "xMidYMid meet");
  return svg;
}

export function setPaper(svg: SVGSVGElement, paper_mm: readonly [number, number]): void {
  setIfChanged(svg, "viewBox", `0 0 ${paper_mm[0]} ${paper_mm[1]}`);
}
