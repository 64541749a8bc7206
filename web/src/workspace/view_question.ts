// The state as questions to the engine.

import type { PoseInputs, Request, ViewQuestion, ViewWanted } from "../engine.ts";
import type { Pose, Settings, State } from "./state.ts";

/** How many heights a strip has: one every 2.35 mm of the demo truck's range, less than a line's width on the screen. */
const kStripHeights = 101;

export function poseInputs(pose: Pose): PoseInputs {
  const { steering, ...inputs } = pose;
  if ("angle_deg" in steering) return { ...inputs, [steering.by]: steering.angle_deg };
  return { ...inputs, [steering.by]: true };
}

/** A place that an answer tells, as the pose to go there. */
export function poseAt(where: Request): Pose {
  const { steer_by, steer_deg, ...inputs } = where;
  if (steer_by === "straight_ahead" || steer_by === "held") {
    return { ...inputs, steering: { by: steer_by } };
  }
  return { ...inputs, steering: { by: `${steer_by}_deg`, angle_deg: steer_deg ?? 0 } };
}

/** With two equals signs a coordinate is a place whatever its sign; with one, a signed number would be added to what the file says. */
export function settingTexts(settings: Settings): string[] {
  return [...settings].map(
    ([name, value]) => `${name}${name.startsWith("points.") ? "==" : "="}${value}`,
  );
}

/** What the screen shows of the truck at hand; nothing where none is open. */
export function viewQuestion(
  state: State,
  views: readonly ViewWanted[],
  withStrips: boolean,
): ViewQuestion | undefined {
  if (state.file === undefined) return undefined;
  return {
    ask: "view",
    file: state.file,
    set: settingTexts(state.trial),
    units: state.units,
    ...poseInputs(state.pose),
    heights: withStrips ? kStripHeights : 0,
    ...(state.strips === undefined ? {} : { names: state.strips }),
    ...(state.loose === undefined ? {} : { loose: state.loose }),
    views,
  };
}

/** What lies behind is drawn in outline, so that the present version stays the one that is read. */
const kOutlinesAlone = { hidden: false, areas: false, centre_lines: false };

/** The same of the version before the last step, or of a second truck: without trial and loose motion, and without the way of a
    point that it may not have. */
export function behindQuestion(
  state: State,
  file: string,
  views: readonly ViewWanted[],
): ViewQuestion {
  return {
    ask: "view",
    file,
    units: state.units,
    ...poseInputs(state.pose),
    heights: kStripHeights,
    ...(state.strips === undefined ? {} : { names: state.strips }),
    views: views.map(({ swept: _, ...view }) => ({ ...view, ...kOutlinesAlone })),
  };
}
