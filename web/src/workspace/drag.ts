// A move on the paper as settings of the truck file: the engine says by how much each coordinate goes with the paper.

import type { DrawnPoint } from "../draw/drawing.ts";
import { fromMm, type LengthUnit } from "../units.ts";
import type { Settings } from "./state.ts";

const kCoordinates = ["x", "y", "z"] as const;
export type Coordinate = (typeof kCoordinates)[number];

/** Places that a dragged coordinate is written with: a tenth of a millimetre, a hundredth of an inch. */
const kDecimals: Readonly<Record<LengthUnit, number>> = { mm: 1, inch: 2 };
const kSymbols: Readonly<Record<LengthUnit, string>> = { mm: "mm", inch: "in" };

/** "543.2 mm": for a setting, which never has a bare number. */
export function settingLength(mm: number, units: LengthUnit): string {
  const text = fromMm(mm, units).toFixed(kDecimals[units]);
  return `${/[1-9]/.test(text) ? text : text.replace("-", "")} ${kSymbols[units]}`;
}

export function settingName(entry: string, coordinate: Coordinate): string {
  return `points.${entry}.${coordinate}`;
}

/** What dragging a point by (right, up) mm of paper sets. Coordinates that stay, as they are written, are left alone. */
export function dragSettings(
  point: Pick<DrawnPoint, "sets" | "measured_mm" | "across" | "up">,
  right_mm: number,
  up_mm: number,
  units: LengthUnit,
): Settings {
  const settings = new Map<string, string>();
  kCoordinates.forEach((coordinate, i) => {
    const measured = point.measured_mm[i] as number;
    const change = (point.across[i] as number) * right_mm + (point.up[i] as number) * up_mm;
    const text = settingLength(measured + change, units);
    if (text !== settingLength(measured, units)) {
      settings.set(settingName(point.sets, coordinate), text);
    }
  });
  return settings;
}

/** The way on the paper that moves a point by `step_mm` of the truck, to the right or up. */
export function paperStep(
  point: Pick<DrawnPoint, "across" | "up">,
  along: "across" | "up",
  step_mm: number,
): number {
  const length = Math.hypot(...point[along]);
  return length === 0 ? 0 : step_mm / length;
}
