// Answers (api/README.md). Numbers are mm, deg and N, as their keys say; null is a number that a pose does not have.

import type { Drawing, Place3 } from "../draw/drawing.ts";
import type { Question, Units } from "./questions.ts";

export interface Fault {
  readonly severity: "error" | "warning";
  /** Empty where the fault has no place in a file; line and column are then 0, else count from 1. */
  readonly file: string;
  readonly line: number;
  readonly column: number;
  readonly length: number;
  readonly what: string;
  readonly fix: string;
  readonly source_line: string;
}

/** A question that could not be answered, and why. */
export interface Failure {
  readonly faults: readonly Fault[];
}

export function isFailure(answer: object): answer is Failure {
  return "faults" in answer;
}

/** What answers about one truck share. */
interface Head<Ask extends string> {
  readonly ask: Ask;
  readonly version: number;
  readonly truck: string;
  readonly file: string;
  /** Names of the kits on top, if there are any. */
  readonly kits?: readonly string[];
  readonly units: Units;
  readonly warnings: readonly Fault[];
  readonly story: readonly string[];
  readonly cautions: readonly string[];
}

export interface Quantity {
  readonly name: string;
  readonly words: string;
  readonly unit: string;
  /** The sign in words; empty where it has none. */
  readonly positive: string;
  readonly negative: string;
}

export type Values = Readonly<Record<string, number | null>>;

export type SteerBy = "straight_ahead" | "held" | "steering_wheel" | "pitman" | "road_wheels";

export interface Request {
  readonly height_mm: number;
  readonly rear_height_mm: number;
  readonly travel_mm: number;
  readonly travel_left_mm: number;
  readonly travel_right_mm: number;
  readonly lean_deg: number;
  readonly steer_by: SteerBy;
  readonly steer_deg?: number;
}

export interface Report {
  readonly outcome:
    | "converged"
    | "out of reach"
    | "bound"
    | "dead centre"
    | "singular"
    | "not assembled"
    | "under-held"
    | "over-held"
    | "iteration limit";
  readonly certificate: "proved" | "followed" | "none";
  readonly residual_m: number;
  readonly last_step_m: number;
  readonly iterations: number;
  readonly path_steps: number;
  readonly set_aside_miss_m: number;
  /** These four in all but converged poses. */
  readonly path_reached?: number;
  readonly what_ran_out?: string;
  readonly how_it_ran_out?: string;
  readonly message?: string;
}

export interface Margin {
  readonly input: string;
  readonly unit: string;
  readonly asked: number;
  readonly end: number;
  readonly margin: number;
  readonly by: "bind" | "dead centre" | "nothing";
  readonly what_ran_out: string;
  readonly how_it_ran_out: string;
  readonly text: string;
}

export interface Influence {
  readonly name: string;
  readonly coordinate: "x" | "y" | "z" | "length";
  readonly on: string;
  readonly per_mm: number;
  readonly text: string;
}

/** Where in the range something is told of. */
interface Placed {
  readonly where: Request;
  readonly place_text: string;
}

export interface LooseMotion {
  readonly name: string;
  readonly spin: boolean;
  readonly idle: boolean;
  readonly free_deg: number | null;
  readonly effects: readonly (Placed & {
    readonly name: string;
    readonly words: string;
    readonly per_deg: number;
    readonly range: number | null;
    readonly text: string;
  })[];
  readonly text: string;
}

export interface Joint {
  readonly name: string;
  readonly kind: string;
  readonly between: readonly string[];
  readonly holds: number;
  /** A distance has its ends and its length instead. */
  readonly at_mm?: Place3;
  readonly ends_mm?: readonly [Place3, Place3];
  readonly length_mm?: number;
}

export interface CheckAnswer extends Head<"check"> {
  readonly counts: Readonly<
    Record<"bodies" | "joints" | "coordinates" | "equations" | "inputs" | "mobility", number>
  >;
  readonly soundness: "sound" | "under-held" | "over-held" | "singular";
  readonly message: string;
  readonly loose: readonly LooseMotion[];
  readonly set_aside: readonly { readonly equation: string; readonly text: string }[];
  readonly fighting: readonly string[];
  /** What rigid parts could not do, of a truck that bushes hold or that has more closures than it needs. */
  readonly fights: readonly {
    readonly motion: string;
    readonly one_opens: boolean;
    readonly gaps: readonly {
      readonly joint: string;
      readonly gap_mm?: number;
      readonly gap_deg?: number;
    }[];
    readonly text: string;
  }[];
  /** Of a truck that was measured and fitted. */
  readonly measured?: MeasuredFit;
  readonly misfits: readonly {
    readonly bar: string;
    readonly misfit_mm: number;
    readonly text: string;
  }[];
  readonly guided_bars?: readonly {
    readonly bar: string;
    readonly rule: "equal halves" | "a^2/b" | "sqrt(a b)" | "none";
    readonly near_half_mm: number;
    readonly guide_half_mm: number;
    readonly half_link_mm: number;
    readonly half_link_by_rule_mm: number;
    readonly on_rocker: boolean;
    readonly leaves_line_mm: number | null;
    readonly text: string;
  }[];
  readonly proof?: Proof;
  readonly aligned?: Report;
  readonly holds?: readonly {
    readonly way: string;
    readonly by: readonly { readonly part: string; readonly share: number }[];
    readonly text: string;
  }[];
  readonly margins?: readonly Margin[];
  /** These two where `expand` was asked. */
  readonly bodies?: readonly { readonly name: string; readonly carrier: string | null }[];
  readonly joints?: readonly Joint[];
}

/** What came of fitting a measured truck. */
export interface MeasuredFit {
  readonly axes: "frame" | "road" | "gauge holes";
  readonly report: Report;
  readonly redundancy: number;
  readonly chi_square: number;
  readonly chance: number;
  readonly chance_of_largest: number;
  readonly coordinates: number;
  readonly unchecked: number;
  readonly worst: string | null;
  readonly stood: {
    readonly lean_deg: number;
    readonly lean_plus_minus_deg: number | null;
    readonly rake_deg: number;
    readonly rake_plus_minus_deg: number | null;
    readonly yaw_deg: number;
    readonly yaw_plus_minus_deg: number | null;
  };
  /** In `_mm`, angles in `_deg`. */
  readonly readings: readonly {
    readonly name: string;
    readonly words: string;
    readonly coordinate: boolean;
    readonly value_mm?: number;
    readonly value_deg?: number;
    readonly fitted_mm?: number;
    readonly fitted_deg?: number;
    readonly plus_minus_mm?: number;
    readonly plus_minus_deg?: number;
    readonly by_others_mm?: number | null;
    readonly by_others_deg?: number | null;
    readonly misfit: number;
    readonly normal: number;
    readonly checked: number;
    readonly text: string;
  }[];
  readonly points: readonly {
    readonly name: string;
    readonly on: string;
    readonly measured_mm: Place3;
    readonly moved_mm: number;
    readonly as_stood_mm: Place3;
    readonly place_mm: Place3;
    readonly plus_minus_mm: Place3;
  }[];
  readonly text: string;
  /** Where `fitted_on` was asked. */
  readonly file_text?: string;
}

export interface Proof {
  readonly certificate: "proved" | "followed" | "none";
  readonly steps: number;
  readonly smallest_radius_mm: number;
  readonly largest_h: number;
  readonly parts: readonly {
    readonly of: "straight ahead" | "steering wheel held" | "steering";
    readonly complete: boolean;
    readonly height_mm?: number;
    readonly stopped_at?: Request;
    readonly place_text?: string;
    readonly stopped_by?: string;
  }[];
  readonly text: string;
}

export interface PoseAnswer extends Head<"pose"> {
  readonly request: Request;
  readonly report: Report;
  readonly quantities: readonly Quantity[];
  /** These four where the pose can be had. */
  readonly values?: Values;
  readonly bodies?: readonly {
    readonly name: string;
    readonly place_mm: Place3;
    readonly turn_deg: number;
    readonly turn_axis: Place3;
    readonly matrix: readonly [Place3, Place3, Place3];
  }[];
  readonly points?: readonly {
    readonly name: string;
    readonly on: string;
    readonly place_mm: Place3;
  }[];
  readonly residuals?: readonly {
    readonly equation: string;
    readonly residual_m: number;
    readonly set_aside: boolean;
  }[];
}

export interface Limit {
  readonly name: string;
  readonly quantity: string;
  readonly words: string;
  readonly verdict: "met" | "broken" | "not reached" | "not told";
  readonly unit: string;
  readonly min: number | null;
  readonly max: number | null;
  readonly over: string;
  readonly wheel: string;
  readonly worst: number | null;
  readonly margin: number | null;
  readonly where?: Request;
  readonly place_text?: string;
  readonly text: string;
}

export interface LockSide {
  readonly reached: boolean;
  readonly stop: string;
  readonly steering_wheel_deg: number | null;
  readonly pitman_deg: number | null;
  readonly mean_steer_deg: number | null;
  readonly outer_deg: number | null;
  readonly inner_deg: number | null;
  readonly turning_circle_mm: number | null;
  readonly kerb_circle_mm: number | null;
  readonly ackermann_error_deg: number | null;
  readonly ackermann_error_20_deg: number | null;
  readonly steering_ratio: number | null;
}

interface Extreme extends Placed {
  readonly value: number;
}

/** The sweep of one truck, by itself or in a comparison. */
export interface Sweep<Ask extends "sweep" | "compare"> extends Omit<Head<Ask>, "cautions"> {
  readonly heights: {
    readonly from_mm: number;
    readonly to_mm: number;
    readonly aligned_mm: number;
    readonly rear_mm: number;
    readonly rear_with_front: boolean;
  };
  readonly quantities: readonly Quantity[];
  readonly groups: readonly {
    readonly title: string;
    readonly main: boolean;
    readonly names: readonly string[];
  }[];
  readonly rows: readonly {
    readonly height_mm: number;
    readonly report: Report;
    readonly smallest_singular_value: number;
    readonly values?: Values;
  }[];
  readonly extremes: readonly {
    readonly name: string;
    readonly lowest: Extreme;
    readonly highest: Extreme;
  }[];
  readonly limits: readonly Limit[];
  readonly not_set: readonly string[];
  readonly not_checked: readonly string[];
  readonly poses: number;
  readonly refused: number;
  readonly refusals: readonly (Placed & { readonly report: Report })[];
  readonly locks: readonly {
    readonly height_mm: number;
    readonly turns: number | null;
    readonly left: LockSide;
    readonly right: LockSide;
  }[];
  readonly margins: readonly Margin[];
  readonly points_that_matter?: Placed & {
    readonly quantity: string;
    readonly words: string;
    readonly unit: string;
    readonly design_moves: readonly Influence[];
    readonly build_errors: readonly Influence[];
  };
}

export interface SweepAnswer extends Sweep<"sweep"> {
  readonly cautions: readonly string[];
}

export interface CompareAnswer {
  readonly ask: "compare";
  readonly version: number;
  readonly kits?: readonly string[];
  readonly units: Units;
  readonly story: readonly string[];
  readonly comparison: readonly (Quantity & {
    readonly worst: readonly (number | null)[];
    readonly best: readonly number[];
    readonly text: string;
  })[];
  readonly trucks: readonly Sweep<"compare">[];
  readonly cautions: readonly string[];
}

export interface SetupAnswer extends Head<"setup"> {
  readonly height_mm: number;
  readonly found: boolean;
  readonly message: string;
  readonly adjustments: readonly {
    readonly bar: string;
    readonly words: string;
    readonly length_now_mm: number;
    readonly length_then_mm: number;
    readonly change_mm: number;
    readonly turns: number | null;
    readonly text: string;
  }[];
  readonly rows: readonly {
    readonly height_mm: number;
    readonly report: Report;
    readonly wheel_before_deg: number | null;
    readonly wheel_after_deg: number | null;
    readonly walk_before_mm: number | null;
    readonly walk_after_mm: number | null;
  }[];
}

export interface StartAnswer extends Head<"start"> {
  readonly layout: string;
  readonly file_text: string;
  readonly sheet_text: string;
  readonly steps: readonly {
    readonly step: number;
    readonly point: string;
    readonly what: string;
    readonly from: string;
    readonly accuracy: string;
    readonly why?: string;
  }[];
  readonly checks: readonly string[];
}

export interface Strips {
  readonly heights_mm: readonly number[];
  readonly columns: readonly {
    readonly name: string;
    readonly values: readonly (number | null)[];
  }[];
  readonly refused: readonly { readonly height_mm: number; readonly text: string }[];
}

/** A pose asked for, and the one that is drawn. */
interface PoseDrawn {
  readonly request: Request;
  readonly report: Report;
  /** Where the pose asked for can be had. */
  readonly values?: Values;
  /** The asked one, or the last one reached on the way to it. */
  readonly drawn: Request;
  readonly drawn_text: string;
  /** Whether what is drawn is what was asked. */
  readonly complete: boolean;
}

export interface ViewAnswer extends Head<"view">, PoseDrawn {
  readonly quantities: readonly Quantity[];
  readonly height_range_mm: readonly [number, number];
  readonly aligned_mm: number;
  /** Droop and bump. */
  readonly travel_mm: readonly [number, number];
  readonly lean_limit_deg: number;
  /** Right and left. */
  readonly steering_wheel_limit_deg: readonly [number, number] | null;
  readonly strips?: Strips;
  readonly bands: readonly {
    readonly name: string;
    readonly quantity: string;
    readonly min: number | null;
    readonly max: number | null;
  }[];
  readonly views: readonly Drawing[];
  readonly points: readonly {
    readonly name: string;
    readonly words?: string;
    readonly on: string;
    readonly place_mm: Place3;
    readonly measured_mm: Place3;
  }[];
}

export interface EditAnswer {
  readonly ask: "edit";
  readonly version: number;
  readonly file: string;
  readonly files: readonly {
    readonly file: string;
    /** Not the file asked for: other trucks may be based on it. */
    readonly layer: boolean;
    readonly before: string;
    readonly after: string;
    readonly lines: readonly {
      readonly line: number;
      readonly before: string;
      readonly after: string;
    }[];
  }[];
}

export interface SheetAnswer extends Head<"sheet">, PoseDrawn {
  readonly drawing: Drawing;
}

export interface Answers {
  readonly check: CheckAnswer;
  readonly pose: PoseAnswer;
  readonly sweep: SweepAnswer;
  readonly compare: CompareAnswer;
  readonly setup: SetupAnswer;
  readonly start: StartAnswer;
  readonly view: ViewAnswer;
  readonly edit: EditAnswer;
  readonly sheet: SheetAnswer;
}

export type Answer = Answers[keyof Answers];

/** The answer to a question of that type. */
export type AnswerTo<Q extends Question> = Answers[Q["ask"]];
