// What the engine has said about the state, and what is still being asked.

import type {
  CheckAnswer,
  CompareAnswer,
  Fault,
  Strips,
  SweepAnswer,
  ViewAnswer,
} from "../engine.ts";
import type { Settings, Texts } from "./state.ts";

/** A long question: its last answer, whether that is of the present version, and how far the next one has come. */
export interface Study<A> {
  readonly answer: A | undefined;
  readonly fresh: boolean;
  /** 0 to 1 while it runs. */
  readonly progress: number | undefined;
}

export interface Findings {
  /** The last answer that drew something. */
  readonly view: ViewAnswer | undefined;
  /** What that answer is of. */
  readonly viewOf: { readonly texts: Texts; readonly trial: Settings } | undefined;
  readonly strips: Strips | undefined;
  /** Faults of what the state holds now; while there are some, `view` is of the last version without. */
  readonly faults: readonly Fault[];
  /** Faults of a change that was tried and is not in the text. */
  readonly trialFaults: readonly Fault[];
  readonly before: ViewAnswer | undefined;
  readonly other: ViewAnswer | undefined;
  readonly otherFaults: readonly Fault[];
  readonly sweep: Study<SweepAnswer>;
  readonly check: Study<CheckAnswer>;
  readonly compare: Study<CompareAnswer>;
  /** Files that a layer of the truck is waiting for. */
  readonly missing: readonly string[];
  /** Something that went wrong and that no place of its own shows. */
  readonly notice: string;
}

const kNothingYet: Study<never> = { answer: undefined, fresh: false, progress: undefined };

const kNoFindings: Findings = {
  view: undefined,
  viewOf: undefined,
  strips: undefined,
  faults: [],
  trialFaults: [],
  before: undefined,
  other: undefined,
  otherFaults: [],
  sweep: kNothingYet,
  check: kNothingYet,
  compare: kNothingYet,
  missing: [],
  notice: "",
};

/** Holds the findings and tells who listens when they change. */
export class FindingsStore {
  private listeners: (() => void)[] = [];

  constructor(private found: Findings = kNoFindings) {}

  get current(): Findings {
    return this.found;
  }

  update(change: Partial<Findings>): void {
    this.found = { ...this.found, ...change };
    for (const listener of this.listeners) listener();
  }

  listen(listener: () => void): void {
    this.listeners.push(listener);
  }
}
