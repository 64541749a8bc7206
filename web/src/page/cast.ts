// Which truck shows which idea: a given one where it has the parts for it and does what the idea says, else a made-up one.

import type { FoldPoints } from "./marks.ts";
import type { Truck } from "./trucks.ts";

export interface Role {
  readonly truck: Truck;
  /** One of the two that the page is about; else made up. */
  readonly given: boolean;
  /** Farthest off centre over the heights; null where that cannot be told. */
  readonly wheel_deg: number | null;
  /** The same of the axle's way to the side. */
  readonly walk_mm: number | null;
}

export interface Cast {
  /** Two plain bars that do not agree. */
  readonly differ: Role;
  /** Two plain bars that do. */
  readonly agree: Role;
  /** Guided bars for axle and steering. */
  readonly guided: Role;
}

/** The points by which the pictures find the parts; a file that was begun with `start` has them by these names. */
export const kPlainPoints = {
  barOnFrame: "track_bar_frame",
  barOnAxle: "track_bar_axle",
  arm: "pitman_ball",
  knuckle: "drag_link_knuckle",
  tieRodLeft: "tie_rod_ball_left",
  tieRodRight: "tie_rod_ball_right",
} as const;

export const kLocator: FoldPoints = {
  nearEnd: "locator_near_end",
  guideEnd: "locator_guide_end",
  middle: "locator_middle",
  pivot: "locator_pivot",
};

export const kGuidedSteering: FoldPoints = {
  nearEnd: "pitman_ball",
  guideEnd: "steer_guide_end",
  middle: "steer_middle",
  pivot: "steer_pivot",
};

/** From here on nobody could call the wheel centred, and up to there a driver could. */
const kTurned_deg = 10;
const kCentred_deg = 5;

function hasAll({ truck }: Role, names: readonly string[]): boolean {
  return names.every((name) => truck.points.has(name));
}

function isPlain(role: Role): boolean {
  return hasAll(role, Object.values(kPlainPoints));
}

/** As drawn: far less than any error of the picture. */
const kEqual_mm = 1;

/** Whether the middle is equally far from both ends and from the pivot, as the words beside the picture say. */
function foldsExactly({ truck }: Role, fold: FoldPoints): boolean {
  const [near, guide, middle, pivot] = [fold.nearEnd, fold.guideEnd, fold.middle, fold.pivot].map(
    (name) => truck.points.get(name),
  );
  if (!near || !guide || !middle || !pivot) return false;
  const fromMiddle = [near, guide, pivot].map((end) =>
    Math.hypot(end[0] - middle[0], end[1] - middle[1], end[2] - middle[2]),
  );
  return Math.max(...fromMiddle) - Math.min(...fromMiddle) < kEqual_mm;
}

/** On a rocker nothing slides: the words beside the picture would be untrue of it. */
const kRockerPivots = ["locator_rocker_pivot", "steer_rocker_pivot"];

function isGuided(role: Role): boolean {
  const isOnRocker = kRockerPivots.some((name) => role.truck.points.has(name));
  return !isOnRocker && foldsExactly(role, kLocator) && foldsExactly(role, kGuidedSteering);
}

function turnsBy({ wheel_deg }: Role): number {
  return wheel_deg === null ? Number.NaN : Math.abs(wheel_deg);
}

export function castOf(given: readonly Role[], examples: Cast): Cast {
  return {
    differ: given.find((role) => isPlain(role) && turnsBy(role) >= kTurned_deg) ?? examples.differ,
    agree: given.find((role) => isPlain(role) && turnsBy(role) <= kCentred_deg) ?? examples.agree,
    guided: given.find(isGuided) ?? examples.guided,
  };
}

export function castText({ truck, given }: Role): string {
  return given
    ? `Drawn from “${truck.name}”, one of the two trucks above.`
    : `Drawn from a made-up truck, “${truck.name}”, to show the idea.`;
}
