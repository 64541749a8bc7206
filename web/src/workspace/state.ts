// What the page knows apart from the engine's answers. Values that are never changed, only replaced: see reduce.ts.

import type { ViewName } from "../draw/drawing.ts";
import type { LengthUnit } from "../units.ts";

/** Texts of files by path. */
export type Texts = ReadonlyMap<string, string>;

export type Steering =
  | { readonly by: "straight_ahead" | "held" }
  | {
      readonly by: "steering_wheel_deg" | "pitman_deg" | "road_wheels_deg";
      readonly angle_deg: number;
    };

export interface Pose {
  readonly height_mm: number;
  readonly rear_height_mm: number;
  readonly travel_mm: number;
  readonly travel_left_mm: number;
  readonly travel_right_mm: number;
  readonly lean_deg: number;
  readonly steering: Steering;
}

export type LengthInput = Exclude<keyof Pose, "lean_deg" | "steering">;

export const kLevelPose: Pose = {
  height_mm: 0,
  rear_height_mm: 0,
  travel_mm: 0,
  travel_left_mm: 0,
  travel_right_mm: 0,
  lean_deg: 0,
  steering: { by: "straight_ahead" },
};

/** A setting of the engine, such as `points.track_bar_axle.z` and `543.2 mm`. */
export type Settings = ReadonlyMap<string, string>;

export const kDrawers = ["limits", "matter", "loose", "points", "file", "compare"] as const;
export type DrawerName = (typeof kDrawers)[number];

export type Theme = "system" | "light" | "dark";

/** A loose motion carried out by so much. */
export interface LooseMotion {
  readonly name: string;
  readonly angle_deg: number;
}

/** Where files come from and go to: a program that serves a folder, or the disk by picker and download. */
export type Source = "server" | "examples" | "opened";

export interface Eye {
  readonly turn_deg: number;
  readonly tilt_deg: number;
}

export interface State {
  readonly source: Source;
  /** The truck at hand; nothing before anything is open. */
  readonly file: string | undefined;
  /** A second truck, drawn behind and in the strips. */
  readonly other: string | undefined;
  /** Texts as they are now, and as they were when last read from or written to where they live. */
  readonly texts: Texts;
  readonly stored: Texts;
  /** The server's mark of what it gave, by path. */
  readonly versions: ReadonlyMap<string, string>;
  /** Changes that a drag or a field tries and that no text has yet. */
  readonly trial: Settings;
  readonly past: readonly Texts[];
  readonly future: readonly Texts[];
  /** What changes belong to one step of undo: a change of the same burst adds no step. Empty: the next one does. */
  readonly burst: string;
  readonly pose: Pose;
  readonly loose: LooseMotion | undefined;
  readonly units: LengthUnit;
  readonly theme: Theme;
  readonly large: ViewName;
  /** From where the pictorial view is seen: turned about the upright, tilted from level. */
  readonly eye: Eye;
  readonly drawer: DrawerName | undefined;
  readonly selected: string | undefined;
  /** Quantities of the strips; nothing: those that the engine shows unasked. */
  readonly strips: readonly string[] | undefined;
  readonly tables: boolean;
  /** The quantity that the points that matter most are told for: a key of docs/notation.md. */
  readonly matterFor: string;
  /** The file that the editor shows. */
  readonly editing: string | undefined;
}

export const kStart: State = {
  source: "examples",
  file: undefined,
  other: undefined,
  texts: new Map(),
  stored: new Map(),
  versions: new Map(),
  trial: new Map(),
  past: [],
  future: [],
  burst: "",
  pose: kLevelPose,
  loose: undefined,
  units: "mm",
  theme: "system",
  large: "front",
  eye: { turn_deg: 35, tilt_deg: 25 },
  drawer: undefined,
  selected: undefined,
  strips: undefined,
  tables: false,
  matterFor: "steering_wheel_off_centre",
  editing: undefined,
};

/** The texts before the last step, which stay drawn faintly; nothing where nothing was changed. */
export function textsBefore(state: State): Texts | undefined {
  return state.past.at(-1);
}

/** Paths whose text is not as stored. */
export function unsaved(state: State): string[] {
  return [...state.texts.keys()].filter((path) => state.texts.get(path) !== state.stored.get(path));
}
