// One view on the sheet: the drawing, and faintly the version before and a second truck at the same pose.

import type { Drawing } from "../draw/drawing.ts";
import { type Frame, overlayTransform } from "../draw/overlay.ts";
import { createSheet, PaintedDrawing, setPaper } from "../draw/paint.ts";
import { setAttribute, svgElement } from "./dom.ts";

export interface ViewLayers {
  readonly present: Drawing | undefined;
  readonly before: Drawing | undefined;
  readonly other: Drawing | undefined;
}

export class ViewPane {
  readonly svg: SVGSVGElement;
  /** Over the drawing, in its own millimetres: handles and arrows. */
  readonly overlay = svgElement("g", { class: "overlay" });
  private readonly present = new PaintedDrawing({ className: "is-present", parts: false });
  private readonly before = new PaintedDrawing({ className: "is-before", parts: false });
  private readonly other = new PaintedDrawing({ className: "is-other", parts: false });
  private shown: ViewLayers = { present: undefined, before: undefined, other: undefined };
  private frame: Frame | undefined;

  constructor(name: string) {
    this.svg = createSheet(name);
    this.svg.append(this.present.element, this.other.element, this.before.element, this.overlay);
  }

  get drawing(): Drawing | undefined {
    return this.shown.present;
  }

  /** `still`: the truck keeps its place and size on the paper, though it may need more room than it had. */
  show(layers: ViewLayers, still: boolean): void {
    const { present, before, other } = layers;
    if (present && !(still && this.frame)) {
      this.frame = present;
      setPaper(this.svg, present.paper_mm);
    }
    this.paint(this.present, present, this.shown.present);
    this.paint(this.before, present && before, this.shown.before);
    this.paint(this.other, present && other, this.shown.other);
    if (present && this.frame) {
      setAttribute(this.overlay, "transform", overlayTransform(present, this.frame) || undefined);
    }
    this.shown = { present, before: present && before, other: present && other };
  }

  private paint(
    painted: PaintedDrawing,
    drawing: Drawing | undefined,
    last: Drawing | undefined,
  ): void {
    if (drawing && this.frame) {
      const transform = overlayTransform(drawing, this.frame);
      setAttribute(painted.element, "transform", transform || undefined);
    }
    if (drawing === last) return;
    if (drawing) painted.show(drawing);
    else painted.clear();
  }
}
