// Views, sheet and strips as files.

import type { Drawing } from "../draw/drawing.ts";
import { pngFile, svgFile } from "../draw/export_svg.ts";
import { createSheet, PaintedDrawing, setPaper } from "../draw/paint.ts";
import type { Strips } from "../engine.ts";
import { stripsCsv } from "./csv.ts";
import { download } from "./download.ts";

/** Dots of a picture to a pixel of the screen. */
const kFine = 3;

export function fileName(truck: string, what: string, ending: string): string {
  const plain = `${truck} ${what}`.toLowerCase().replace(/[^a-z0-9]+/g, "-");
  return `${plain.replace(/^-|-$/g, "")}.${ending}`;
}

/** The drawing alone, without what the page lays over it. */
function drawingSvg(drawing: Drawing, title: string): string {
  const sheet = createSheet(title);
  const painted = new PaintedDrawing();
  sheet.append(painted.element);
  setPaper(sheet, drawing.paper_mm);
  painted.show(drawing);
  return svgFile(sheet, title);
}

export function saveSvg(drawing: Drawing, truck: string): void {
  const title = `${truck}: ${drawing.words}`;
  download(fileName(truck, drawing.words, "svg"), drawingSvg(drawing, title), "image/svg+xml");
}

export async function savePng(drawing: Drawing, truck: string): Promise<void> {
  const svg = drawingSvg(drawing, `${truck}: ${drawing.words}`);
  download(fileName(truck, drawing.words, "png"), await pngFile(svg, kFine));
}

export function csvOf(strips: Strips): string {
  return stripsCsv(strips.heights_mm, strips.columns);
}

export function saveCsv(strips: Strips, truck: string): void {
  download(fileName(truck, "over height", "csv"), csvOf(strips), "text/csv");
}
