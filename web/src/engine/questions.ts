// Questions (api/README.md). Numbers are mm and deg, as their keys say.

/** The inputs of a pose; 0 where absent, and at most one way to steer. */
export interface PoseInputs {
  readonly height_mm?: number;
  readonly rear_height_mm?: number;
  readonly travel_mm?: number;
  readonly travel_left_mm?: number;
  readonly travel_right_mm?: number;
  readonly lean_deg?: number;
  readonly steering_wheel_deg?: number;
  readonly pitman_deg?: number;
  readonly road_wheels_deg?: number;
  readonly straight_ahead?: boolean;
  readonly held?: boolean;
}

/** What every question may carry. */
export interface Asked {
  /** Settings, such as "points.pitman_ball.z=+10mm", made as if they were one more layer. */
  readonly set?: readonly string[];
  /** Kits, put on top of the file's own layers. */
  readonly with?: readonly string[];
  /** For sentences alone; the truck's own unit where absent. */
  readonly units?: Units;
}

export type Units = "mm" | "inch";

export interface CheckQuestion extends Asked {
  readonly ask: "check";
  readonly file: string;
  /** How a file on top of this one would name it: a measured truck is answered with the fitted one as such a file. */
  readonly fitted_on?: string;
  readonly expand?: boolean;
}

export interface PoseQuestion extends Asked, PoseInputs {
  readonly ask: "pose";
  readonly file: string;
}

export interface SweepQuestion extends Asked {
  readonly ask: "sweep";
  readonly file: string;
  readonly heights?: number;
  readonly rear_height_mm?: number;
  readonly rear_with_front?: boolean;
  readonly quantity?: string;
}

export interface CompareQuestion extends Asked {
  readonly ask: "compare";
  readonly files: readonly string[];
  readonly heights?: number;
  readonly rear_height_mm?: number;
  readonly rear_with_front?: boolean;
}

export interface SetupQuestion extends Asked {
  readonly ask: "setup";
  readonly file: string;
  readonly height_mm?: number;
  readonly heights?: number;
}

export interface StartQuestion {
  readonly ask: "start";
  readonly layout:
    | "plain"
    | "plain-tie-rod"
    | "push-pull"
    | "inverted-y"
    | "relay"
    | "four-bar"
    | "half-converted"
    | "guided"
    | "rocker-guided";
  readonly example_numbers?: boolean;
  readonly units?: Units;
}

/** One drawing of the pose at hand. */
export interface ViewWanted {
  readonly view: "front" | "side" | "top" | "pictorial";
  readonly paper_mm: readonly [number, number];
  /** Whether hidden lines are drawn. */
  readonly hidden?: boolean;
  /** Whether silhouettes are there to be filled; true where absent, as the next. */
  readonly areas?: boolean;
  readonly centre_lines?: boolean;
  /** Points whose path over the heights is drawn. */
  readonly swept?: readonly string[];
  /** The same truck at another height, drawn faintly. */
  readonly beside_height_mm?: number;
  readonly turn_deg?: number;
  readonly tilt_deg?: number;
}

/** What a screen shows at once. */
export interface ViewQuestion extends Asked, PoseInputs {
  readonly ask: "view";
  readonly file: string;
  /** How many heights the strips have; no strips where absent or 0. */
  readonly heights?: number;
  /** The quantities that strips are wanted of; the main group where absent. */
  readonly names?: readonly string[];
  readonly views?: readonly ViewWanted[];
  /** A loose motion as `check` tells it, carried out by so much. */
  readonly loose?: { readonly name: string; readonly angle_deg: number };
}

export interface EditQuestion extends Asked {
  readonly ask: "edit";
  readonly file: string;
}

export interface SheetQuestion extends Asked, PoseInputs {
  readonly ask: "sheet";
  readonly file: string;
  readonly paper?: "A2" | "A3" | "11x17";
  readonly beside_height_mm?: number;
  readonly swept?: readonly string[];
}

export type Question =
  | CheckQuestion
  | PoseQuestion
  | SweepQuestion
  | CompareQuestion
  | SetupQuestion
  | StartQuestion
  | ViewQuestion
  | EditQuestion
  | SheetQuestion;
