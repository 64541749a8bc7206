// One picture: the engine's drawing, what the page marks in it, and the words under it.

import type { Drawing } from "../draw/drawing.ts";
import { createSheet, PaintedDrawing } from "../draw/paint.ts";
import { bodyShapes } from "./body.ts";
import { type Box, viewBox, withRatio } from "./camera.ts";
import { html, setText, svg } from "./dom.ts";
import type { Mark } from "./marks.ts";
import { paintMarks } from "./paint_marks.ts";

export interface PictureOptions {
  /** For screen readers: what it shows. */
  readonly name: string;
  readonly ratio: number;
  /** Parts that the words speak of: drawn in the accent, and heavier. */
  readonly marked?: readonly string[];
  /** The drawing steps back behind what is marked in it. */
  readonly quiet?: boolean;
  /** With the truck's body sketched above the frame. */
  readonly withBody?: boolean;
}

/** How wide a picture is taken to be that is not on the screen: it waits to be printed. */
const kPrinted_px = 340;

function bodyPaths(drawing: Drawing): SVGElement[] {
  const height = drawing.paper_mm[1];
  return bodyShapes(drawing).map(({ look, spots }) => {
    const corners = spots.map(([x, y]) => `${x} ${height - y}`);
    return svg("path", { class: `body-${look}`, d: `M${corners.join("L")}Z` });
  });
}

export class Picture {
  readonly element: HTMLElement;
  private readonly sheet: SVGSVGElement;
  private readonly drawing = new PaintedDrawing();
  private readonly overlay = svg("g", { class: "marks" });
  private readonly body = svg("g", { class: "body" });
  private readonly note = html("p", { class: "not-reached", hidden: true });
  private last: { drawing: Drawing; marks: readonly Mark[]; box: Box } | undefined;

  constructor(private readonly options: PictureOptions) {
    this.sheet = createSheet(options.name);
    this.sheet.append(this.body, this.drawing.element, this.overlay);
    this.sheet.style.aspectRatio = String(options.ratio);
    const look = options.quiet ? "picture is-quiet" : "picture";
    this.element = html("div", { class: look }, this.sheet, this.note);
    new ResizeObserver(() => this.showMarks()).observe(this.sheet);
  }

  /** `note` is what is said where this is not the pose that was asked for. */
  show(drawing: Drawing, box: Box, marks: readonly Mark[], note: string): void {
    const shown = withRatio(box, this.options.ratio);
    this.last = { drawing, marks, box: shown };
    this.sheet.setAttribute("viewBox", viewBox(shown, drawing.paper_mm[1]));
    if (this.options.withBody) this.body.replaceChildren(...bodyPaths(drawing));
    this.drawing.show(drawing);
    for (const path of this.drawing.element.querySelectorAll<SVGElement>("[data-part]")) {
      path.classList.toggle("is-marked", this.isMarked(path.dataset.part ?? ""));
    }
    this.note.hidden = note === "";
    setText(this.note, note);
    this.showMarks();
  }

  /** A part, or a piece of it, such as its half-link. */
  private isMarked(part: string): boolean {
    return (this.options.marked ?? []).some((name) => part === name || part.startsWith(`${name}.`));
  }

  private showMarks(): void {
    if (!this.last) return;
    const width = this.sheet.clientWidth || kPrinted_px;
    const { drawing, marks, box } = this.last;
    paintMarks(this.overlay, marks, {
      paperHeight: drawing.paper_mm[1],
      left: box.left,
      right: box.left + box.width,
      pixel: box.width / width,
    });
  }
}
