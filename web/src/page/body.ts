// The truck's body, sketched: a bed with its tailgate and a cab, hung on the frame where the engine draws it. It shows which way
// is up and that the truck rises; nothing is computed of it, and its size is only that of a truck on such tyres.

import type { Drawing, DrawnPoint } from "../draw/drawing.ts";
import { inFrame, type Spot } from "./in_frame.ts";

export interface BodyShape {
  readonly look: "fill" | "line";
  readonly spots: readonly Spot[];
}

/** Seen from behind: half the body's width and heights above the ground, by the wheel's half track and radius. */
const kWide = 1.02;
const kBedLow = 2.3;
const kBedHigh = 3.3;
const kRoof = 4.3;

/** Upright outlines, left and right alike, from the middle outwards: shares of the half width, heights in wheel radii. */
const kOutlines: readonly (readonly [BodyShape["look"], readonly (readonly [number, number])[]])[] =
  [
    [
      "fill",
      [
        [0.84, kBedHigh],
        [0.8, kBedHigh + 0.15],
        [0.68, kRoof - 0.08],
        [0.62, kRoof],
      ],
    ],
    [
      "line",
      [
        [0.72, kBedHigh + 0.15],
        [0.61, kRoof - 0.16],
      ],
    ],
    [
      "fill",
      [
        [0.95, kBedLow],
        [1, kBedLow + 0.1],
        [1, kBedHigh - 0.06],
        [0.96, kBedHigh],
      ],
    ],
    [
      "line",
      [
        [0.84, kBedLow + 0.16],
        [0.84, kBedHigh - 0.1],
      ],
    ],
  ];

/** Closed outlines on the paper; none where no point of the frame tells where it is. */
export function bodyShapes(drawing: Drawing): BodyShape[] {
  const place = inFrame(drawing);
  const wheel = outermost(drawing.points);
  if (!place || !wheel) return [];
  const half = kWide * Math.abs(wheel.measured_mm[1]);
  const radius = wheel.measured_mm[2];
  return kOutlines.map(([look, corners]) => {
    const side = (sign: number) =>
      corners.map(([share, height]) => place([0, sign * share * half, height * radius]));
    return { look, spots: [...side(1), ...side(-1).reverse()] };
  });
}

/** The wheel centre: farthest out of the axle's points. */
function outermost(points: readonly DrawnPoint[]): DrawnPoint | undefined {
  const onAxle = points.filter(({ on }) => on === "axle");
  const out = (point: DrawnPoint) => Math.abs(point.measured_mm[1]);
  return onAxle.reduce<DrawnPoint | undefined>(
    (most, point) => (most === undefined || out(point) > out(most) ? point : most),
    undefined,
  );
}
