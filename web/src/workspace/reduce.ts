// Every change of the state, as a function from the state before to the state after.

import type { ViewName } from "../draw/drawing.ts";
import type { LengthUnit } from "../units.ts";
import type {
  DrawerName,
  Eye,
  LooseMotion,
  Pose,
  Settings,
  Source,
  State,
  Steering,
  Texts,
  Theme,
} from "./state.ts";
import { kLevelPose } from "./state.ts";

export type Action =
  /** Files were read: they join what is there, or replace it. */
  | {
      readonly do: "open";
      readonly source: Source;
      readonly texts: Texts;
      readonly versions?: ReadonlyMap<string, string>;
      readonly file: string | undefined;
      readonly replace: boolean;
    }
  | { readonly do: "choose truck"; readonly file: string }
  | { readonly do: "compare"; readonly file: string | undefined }
  | { readonly do: "pose"; readonly change: Partial<Pose> }
  | { readonly do: "steer"; readonly steering: Steering }
  | { readonly do: "level" }
  | { readonly do: "loosen"; readonly loose: LooseMotion | undefined }
  /** A change is tried: until it is written, the engine makes it after reading. It joins what is tried, or replaces it. */
  | {
      readonly do: "try";
      readonly settings: Settings;
      readonly burst: string;
      readonly replace?: boolean;
    }
  /** The engine has written `trial` into texts. */
  | { readonly do: "written"; readonly trial: Settings; readonly texts: Texts }
  /** What was tried is given up, as if it had not been. */
  | { readonly do: "give up" }
  | { readonly do: "type"; readonly path: string; readonly text: string }
  /** The next change is a step of its own. */
  | { readonly do: "rest" }
  | { readonly do: "undo" }
  | { readonly do: "redo" }
  | {
      readonly do: "saved";
      readonly path: string;
      readonly text: string;
      readonly version?: string;
    }
  /** Of a file that changed underneath, the text there is taken; one's own stays a step of undo. */
  | {
      readonly do: "take theirs";
      readonly path: string;
      readonly text: string;
      readonly version: string;
    }
  | { readonly do: "units"; readonly units: LengthUnit }
  | { readonly do: "theme"; readonly theme: Theme }
  | { readonly do: "enlarge"; readonly view: ViewName }
  | { readonly do: "eye"; readonly eye: Eye }
  | { readonly do: "drawer"; readonly drawer: DrawerName | undefined }
  | { readonly do: "select"; readonly point: string | undefined }
  | { readonly do: "strips"; readonly names: readonly string[] | undefined }
  | { readonly do: "tables"; readonly tables: boolean }
  | { readonly do: "matter for"; readonly quantity: string }
  | { readonly do: "edit"; readonly path: string };

/** How many steps can be undone. A step is a map of strings that are shared: what it costs is the changed text. */
const kSteps = 200;

function withEntries<V>(
  map: ReadonlyMap<string, V>,
  entries: Iterable<readonly [string, V]>,
): ReadonlyMap<string, V> {
  const joined = new Map(map);
  for (const [key, value] of entries) joined.set(key, value);
  return joined;
}

/** The state in which a change of the burst may be made: with a step to come back to. */
function step(state: State, burst: string): State {
  if (burst !== "" && burst === state.burst) return state;
  return {
    ...state,
    past: [...state.past, state.texts].slice(-kSteps),
    future: [],
    burst,
  };
}

function open(state: State, action: Extract<Action, { do: "open" }>): State {
  const base: State = action.replace
    ? { ...state, texts: new Map(), stored: new Map(), versions: new Map() }
    : state;
  const file = action.file ?? base.file;
  return {
    ...base,
    source: action.source,
    texts: withEntries(base.texts, action.texts),
    stored: withEntries(base.stored, action.texts),
    versions: withEntries(base.versions, action.versions ?? []),
    ...(file === state.file && !action.replace ? {} : forTruck(file)),
    other: action.replace ? undefined : state.other,
    trial: new Map(),
    past: action.replace ? [] : state.past,
    future: action.replace ? [] : state.future,
    burst: "",
  };
}

/** What a new truck brings along and what it lets go. */
function forTruck(file: string | undefined): Partial<State> {
  return { file, editing: file, selected: undefined, loose: undefined, pose: kLevelPose };
}

function undo(state: State): State {
  const before = state.past.at(-1);
  if (!before) return state;
  return {
    ...state,
    texts: before,
    trial: new Map(),
    loose: undefined,
    past: state.past.slice(0, -1),
    future: [state.texts, ...state.future],
    burst: "",
  };
}

function redo(state: State): State {
  const after = state.future[0];
  if (!after) return state;
  return {
    ...state,
    texts: after,
    trial: new Map(),
    loose: undefined,
    past: [...state.past, state.texts],
    future: state.future.slice(1),
    burst: "",
  };
}

function giveUp(state: State): State {
  // A burst whose earlier changes are written keeps them.
  const fresh = state.past.at(-1) === state.texts;
  if (state.trial.size === 0 && !fresh) return state;
  return {
    ...state,
    trial: new Map(),
    past: fresh ? state.past.slice(0, -1) : state.past,
    burst: "",
  };
}

function saved(state: State, action: Extract<Action, { do: "saved" }>): State {
  return {
    ...state,
    stored: withEntries(state.stored, [[action.path, action.text]]),
    versions:
      action.version === undefined
        ? state.versions
        : withEntries(state.versions, [[action.path, action.version]]),
    burst: "",
  };
}

function takeTheirs(state: State, action: Extract<Action, { do: "take theirs" }>): State {
  const stepped = step(state, "");
  const entry: [string, string][] = [[action.path, action.text]];
  return {
    ...stepped,
    texts: withEntries(state.texts, entry),
    stored: withEntries(state.stored, entry),
    versions: withEntries(state.versions, [[action.path, action.version]]),
  };
}

export function reduce(state: State, action: Action): State {
  switch (action.do) {
    case "open":
      return open(state, action);
    case "choose truck":
      return action.file === state.file ? state : { ...state, ...forTruck(action.file), burst: "" };
    case "compare":
      return { ...state, other: action.file };
    case "pose":
      return { ...state, pose: { ...state.pose, ...action.change } };
    case "steer":
      return { ...state, pose: { ...state.pose, steering: action.steering } };
    case "level":
      return { ...state, pose: kLevelPose, loose: undefined };
    case "loosen":
      return { ...state, loose: action.loose };
    case "try":
      return {
        ...step(state, action.burst),
        trial: action.replace ? action.settings : withEntries(state.trial, action.settings),
        loose: undefined,
      };
    case "written":
      if (state.trial !== action.trial) return state;
      return { ...state, texts: withEntries(state.texts, action.texts), trial: new Map() };
    case "give up":
      return giveUp(state);
    case "type":
      if (state.texts.get(action.path) === action.text) return state;
      return {
        ...step(state, `type ${action.path}`),
        loose: undefined,
        texts: withEntries(state.texts, [[action.path, action.text]]),
      };
    case "rest":
      return state.burst === "" ? state : { ...state, burst: "" };
    case "undo":
      return undo(state);
    case "redo":
      return redo(state);
    case "saved":
      return saved(state, action);
    case "take theirs":
      return takeTheirs(state, action);
    case "units":
      return { ...state, units: action.units };
    case "theme":
      return { ...state, theme: action.theme };
    case "enlarge":
      return { ...state, large: action.view };
    case "eye":
      return { ...state, eye: action.eye };
    case "drawer":
      return { ...state, drawer: action.drawer, loose: undefined };
    case "select":
      return { ...state, selected: action.point };
    case "strips":
      return { ...state, strips: action.names };
    case "tables":
      return { ...state, tables: action.tables };
    case "matter for":
      return { ...state, matterFor: action.quantity };
    case "edit":
      return { ...state, editing: action.path };
  }
}
