// The points of the large view as things to take hold of: by pointer, or one at a time by keyboard.

import type { Drawing, DrawnPoint } from "../draw/drawing.ts";
import { nearestPoint, onSheet, type PaperPlace } from "../draw/pick.ts";
import { setAttribute, setText, svgElement } from "./dom.ts";

// On the screen; the finger's reach makes a target of 24 pixels across.
const kMark_px = 4;
const kReach_px = 12;

export interface HandleEvents {
  readonly select: (point: string | undefined) => void;
  /** A drag has begun: all later moves count from here. */
  readonly begin: (point: DrawnPoint) => void;
  /** So many mm of paper from where it began. */
  readonly move: (point: DrawnPoint, right_mm: number, up_mm: number) => void;
  readonly end: () => void;
  readonly cancel: () => void;
  /** One step by key: of a millimetre, or a tenth with the shift key. */
  readonly nudge: (point: DrawnPoint, right: number, up: number, fine: boolean) => void;
}

interface Drag {
  readonly pointer: number;
  readonly point: DrawnPoint;
  /** On the sheet, down. */
  readonly from: PaperPlace;
  moved: boolean;
}

/** "track_bar_axle" as it is said. */
export function pointWords(name: string): string {
  return name.replaceAll("_", " ");
}

const kArrows: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

class Handle {
  readonly element: SVGGElement;
  private readonly mark = svgElement("circle", { class: "handle-mark" });
  private readonly ring = svgElement("circle", { class: "handle-ring" });
  private readonly label = svgElement("text", { class: "handle-label" });
  private readonly reach = svgElement("circle", { class: "handle-reach" });

  constructor(readonly name: string) {
    this.element = svgElement(
      "g",
      { class: "handle", role: "button", "data-point": name },
      this.reach,
      this.ring,
      this.mark,
      this.label,
    );
    setText(this.label, pointWords(name));
  }

  show(point: DrawnPoint, paperHeight: number, mm_per_px: number, selected: boolean, tab: boolean) {
    const [x, y] = point.at_mm;
    setAttribute(this.element, "transform", `translate(${x} ${paperHeight - y})`);
    setAttribute(this.element, "tabindex", tab ? 0 : -1);
    setAttribute(this.element, "aria-pressed", selected ? "true" : "false");
    const words = `point ${pointWords(this.name)}, on the ${pointWords(point.on)}`;
    const mirror = point.sets === this.name ? "" : `, moves with ${pointWords(point.sets)}`;
    setAttribute(this.element, "aria-label", words + mirror);
    this.element.classList.toggle("is-selected", selected);
    const mark = kMark_px * mm_per_px;
    setAttribute(this.mark, "r", (mark / 2).toFixed(2));
    setAttribute(this.ring, "r", (mark * 1.75).toFixed(2));
    setAttribute(this.reach, "r", (kReach_px * mm_per_px).toFixed(2));
    setAttribute(this.label, "x", (mark * 2.2).toFixed(2));
    setAttribute(this.label, "y", (-mark * 1.2).toFixed(2));
    setAttribute(this.label, "font-size", (12 * mm_per_px).toFixed(2));
  }
}

export class Handles {
  readonly element = svgElement("g", { class: "handles" });
  private readonly handles = new Map<string, Handle>();
  private drawing: Drawing | undefined;
  private mm_per_px = 1;
  private drag: Drag | undefined;

  constructor(
    private readonly svg: SVGSVGElement,
    holder: HTMLElement,
    private readonly events: HandleEvents,
  ) {
    svg.addEventListener("pointerdown", (event) => this.down(event));
    svg.addEventListener("pointermove", (event) => this.move(event));
    svg.addEventListener("pointerup", (event) => this.up(event));
    svg.addEventListener("pointercancel", (event) => this.lost(event));
    // On the holder, since an SVG element that listens for focus takes it, too.
    holder.addEventListener("keydown", (event) => this.key(event));
    holder.addEventListener("focusin", (event) => this.focused(event));
  }

  get dragging(): boolean {
    return this.drag !== undefined;
  }

  /** `mm_per_px`: how much paper a pixel of the screen shows. */
  show(drawing: Drawing, selected: string | undefined, mm_per_px: number): void {
    this.drawing = drawing;
    this.mm_per_px = mm_per_px;
    const names = new Set(drawing.points.map((point) => point.name));
    for (const [name, handle] of this.handles) {
      if (names.has(name)) continue;
      handle.element.remove();
      this.handles.delete(name);
    }
    const inTabOrder =
      selected !== undefined && names.has(selected) ? selected : drawing.points[0]?.name;
    for (const point of drawing.points) {
      let handle = this.handles.get(point.name);
      if (!handle) {
        handle = new Handle(point.name);
        this.handles.set(point.name, handle);
        this.element.append(handle.element);
      }
      const isSelected = point.name === selected;
      handle.show(point, drawing.paper_mm[1], mm_per_px, isSelected, point.name === inTabOrder);
    }
  }

  clear(): void {
    this.drawing = undefined;
    for (const handle of this.handles.values()) handle.element.remove();
    this.handles.clear();
  }

  private down(event: PointerEvent): void {
    if (!this.drawing || event.button !== 0) return;
    const at = onSheet(this.svg, event.clientX, event.clientY);
    if (!at) return;
    const { paper_mm, points } = this.drawing;
    const reach = kReach_px * this.mm_per_px;
    const point = nearestPoint(points, { x: at.x, y: paper_mm[1] - at.y }, reach);
    this.events.select(point?.name);
    if (!point) return;
    event.preventDefault();
    this.svg.setPointerCapture(event.pointerId);
    this.drag = { pointer: event.pointerId, point, from: at, moved: false };
    this.handles.get(point.name)?.element.focus({ preventScroll: true });
  }

  private move(event: PointerEvent): void {
    if (this.drag?.pointer !== event.pointerId) return;
    const at = onSheet(this.svg, event.clientX, event.clientY);
    if (!at) return;
    const { point, from } = this.drag;
    if (!this.drag.moved) {
      if (at.x === from.x && at.y === from.y) return;
      this.drag.moved = true;
      this.events.begin(point);
    }
    this.events.move(point, at.x - from.x, from.y - at.y);
  }

  private up(event: PointerEvent): void {
    if (this.drag?.pointer !== event.pointerId) return;
    const { moved } = this.drag;
    this.drag = undefined;
    if (moved) this.events.end();
  }

  private lost(event: PointerEvent): void {
    if (this.drag?.pointer !== event.pointerId) return;
    this.letGo();
  }

  private letGo(): void {
    const moved = this.drag?.moved;
    this.drag = undefined;
    if (moved) this.events.cancel();
  }

  private focused(event: FocusEvent): void {
    const name = (event.target as Element).closest<SVGElement>("[data-point]")?.dataset.point;
    if (name !== undefined) this.events.select(name);
  }

  private key(event: KeyboardEvent): void {
    const name = (event.target as Element).closest<SVGElement>("[data-point]")?.dataset.point;
    const points = this.drawing?.points ?? [];
    const index = points.findIndex((point) => point.name === name);
    const point = points[index];
    if (!point) return;
    const arrow = kArrows[event.key];
    if (arrow) {
      this.events.nudge(point, arrow[0], arrow[1], event.shiftKey);
    } else if (event.key === "PageDown" || event.key === "PageUp") {
      const step = event.key === "PageDown" ? 1 : points.length - 1;
      const next = points[(index + step) % points.length] as DrawnPoint;
      this.handles.get(next.name)?.element.focus();
    } else if (event.key === "Escape") {
      if (this.drag) this.letGo();
      else this.events.select(undefined);
    } else {
      return;
    }
    event.preventDefault();
  }
}
