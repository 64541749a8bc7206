// Which part of the paper is shown: a box around chosen points in all the poses that a picture goes through, so that the
// picture moves and its edges do not.

import type { Drawing } from "../draw/drawing.ts";
import type { Spot } from "./in_frame.ts";

/** In mm of paper, y up. */
export interface Box {
  readonly left: number;
  readonly low: number;
  readonly width: number;
  readonly height: number;
}

/** The paper, `wider` times as wide: so that a truck drawn at a larger scale looks as large as the one beside it. */
export function wholePaper(drawing: Drawing, ratio: number, wider = 1): Box {
  const [width, height] = drawing.paper_mm;
  const shown = wider * width;
  const left = (width - shown) / 2;
  return { left, low: (height - shown / ratio) / 2, width: shown, height: shown / ratio };
}

/** Room under the road, as a share of the width. */
const kBelowRoad = 0.03;

/** From just below the road upwards: a truck seen level, with room for its body. */
export function onTheRoad(drawing: Drawing, ratio: number, wider = 1): Box {
  const shown = wider * drawing.paper_mm[0];
  const [middle, road] = drawing.origin_mm;
  return {
    left: middle - shown / 2,
    low: road - kBelowRoad * shown,
    width: shown,
    height: shown / ratio,
  };
}

/** Around places on the paper, with a rim in mm of paper. */
export function boxOfSpots(spots: readonly Spot[], rim: number): Box | undefined {
  if (spots.length === 0) return undefined;
  const across = spots.map(([x]) => x);
  const up = spots.map(([, y]) => y);
  const left = Math.min(...across) - rim;
  const low = Math.min(...up) - rim;
  return {
    left,
    low,
    width: Math.max(...across) + rim - left,
    height: Math.max(...up) + rim - low,
  };
}

/** Around `names` in every one of `drawings`, with `margin` mm of truck on every side. */
export function boxAround(
  drawings: readonly Drawing[],
  names: readonly string[],
  margin: number,
): Box | undefined {
  const spots = drawings.flatMap(({ points }) =>
    points.filter(({ name }) => names.includes(name)).map(({ at_mm }) => at_mm),
  );
  return boxOfSpots(spots, margin * (drawings[0]?.scale ?? 0));
}

/** Grown about its middle to a ratio of width to height. */
export function withRatio(box: Box, ratio: number): Box {
  const width = Math.max(box.width, box.height * ratio);
  const height = width / ratio;
  return {
    left: box.left - (width - box.width) / 2,
    low: box.low - (height - box.height) / 2,
    width,
    height,
  };
}

/** As SVG writes it, on paper so high. */
export function viewBox(box: Box, paperHeight: number): string {
  return `${box.left} ${paperHeight - box.low - box.height} ${box.width} ${box.height}`;
}
