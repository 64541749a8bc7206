// Strokes of a drawing as SVG path data. The paper's y runs up, SVG's down: `height` is the paper's.

import type { Item } from "./drawing.ts";

/** A hundredth of a millimetre: finer than a screen shows, shorter than a double prints. */
function short(value: number): string {
  return String(Math.round(value * 100) / 100);
}

function point(x: number, y: number, height: number): string {
  return `${short(x)} ${short(height - y)}`;
}

export function polylineData(line: readonly number[], height: number): string {
  let data = "";
  for (let i = 0; i + 1 < line.length; i += 2) {
    data += (i === 0 ? "M" : "L") + point(line[i] as number, line[i + 1] as number, height);
  }
  return data;
}

/** Twice the area that the outline goes round; negative where it goes clockwise. */
function signedArea(area: readonly number[]): number {
  let sum = 0;
  let x0 = area[area.length - 2] as number;
  let y0 = area[area.length - 1] as number;
  for (let i = 0; i + 1 < area.length; i += 2) {
    const x = area[i] as number;
    const y = area[i + 1] as number;
    sum += x0 * y - x * y0;
    x0 = x;
    y0 = y;
  }
  return sum;
}

function reversed(line: readonly number[]): number[] {
  const back: number[] = [];
  for (let i = line.length - 2; i >= 0; i -= 2) back.push(line[i] as number, line[i + 1] as number);
  return back;
}

/** Always anticlockwise on the paper, so that of several in one path none makes a hole in another. */
export function areaData(area: readonly number[], height: number): string {
  if (area.length === 0) return "";
  return `${polylineData(signedArea(area) < 0 ? reversed(area) : area, height)}Z`;
}

/** A whole turn is two halves: SVG draws nothing for an arc that ends where it began. */
export function arcData(arc: NonNullable<Item["arc"]>, height: number): string {
  const [x, y, radius, from, to] = arc;
  const on = (degrees: number) => {
    const angle = (degrees * Math.PI) / 180;
    return point(x + radius * Math.cos(angle), y + radius * Math.sin(angle), height);
  };
  const r = short(radius);
  if (Math.abs(to - from) >= 360) {
    const half = (end: number) => `A${r} ${r} 0 1 0 ${on(end)}`;
    return `M${on(from)}${half(from + 180)}${half(from)}`;
  }
  const turn = (to - from + 360) % 360;
  // Anticlockwise on paper stays anticlockwise on the screen: sweep flag 0.
  return `M${on(from)}A${r} ${r} 0 ${turn > 180 ? 1 : 0} 0 ${on(to)}`;
}

export function strokeData(item: Item, height: number): string {
  if (item.line) return polylineData(item.line, height);
  if (item.arc) return arcData(item.arc, height);
  return "";
}
