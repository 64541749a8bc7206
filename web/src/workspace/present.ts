// Asks what the screen shows of the present version, once more whenever that may have changed: the newest question only.

import type { Engine, Failure, ViewAnswer, ViewWanted } from "../engine.ts";
import { isFailure, newestOnly } from "../engine.ts";
import type { Desk } from "./desk.ts";
import type { FindingsStore } from "./findings.ts";
import type { FrameLog } from "./frame_log.ts";
import { missingLayers } from "./layers.ts";
import type { State } from "./state.ts";
import type { Store } from "./store.ts";
import { viewQuestion } from "./view_question.ts";

/** What the strips depend on; they do not go with the pose. */
function stripKey(state: State): readonly unknown[] {
  return [state.texts, state.trial, state.file, state.strips, state.units];
}

function same(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((value, i) => value === b[i]);
}

export class Present {
  private readonly newest = newestOnly<ViewAnswer | Failure>();
  private stripsOf: readonly unknown[] = [];

  constructor(
    private readonly engine: Engine,
    private readonly desk: Desk,
    private readonly store: Store,
    private readonly findings: FindingsStore,
    private readonly frames: FrameLog,
    private readonly views: () => readonly ViewWanted[],
  ) {}

  /** Whether two states look the same to this question. */
  static alike(a: State, b: State): boolean {
    return (
      same(stripKey(a), stripKey(b)) &&
      a.pose === b.pose &&
      a.loose === b.loose &&
      a.large === b.large &&
      a.eye === b.eye &&
      a.selected === b.selected
    );
  }

  async ask(): Promise<void> {
    let state = this.store.state;
    let asked_ms = 0;
    let withStrips = false;
    const answer = await this.newest(() => {
      state = this.store.state;
      asked_ms = performance.now();
      withStrips = !same(this.stripsOf, stripKey(state));
      this.desk.lay(state.texts);
      const question = viewQuestion(state, this.views(), withStrips);
      if (!question) return Promise.resolve({ faults: [] });
      return this.engine.ask(question);
    });
    if (!answer) return;
    this.frames.answered(asked_ms, withStrips);
    if (isFailure(answer)) this.failed(answer, state);
    else this.drawn(answer, state);
  }

  private drawn(answer: ViewAnswer, state: State): void {
    if (answer.strips) this.stripsOf = stripKey(state);
    const strips = answer.strips ?? this.findings.current.strips;
    // Why a change was refused stays said until the next one.
    const trialFaults = state.trial.size > 0 ? [] : this.findings.current.trialFaults;
    this.findings.update({
      view: answer,
      viewOf: { texts: state.texts, trial: state.trial },
      strips,
      faults: [],
      trialFaults,
      missing: [],
    });
  }

  private failed(answer: Failure, state: State): void {
    if (state.trial.size > 0) {
      this.findings.update({ trialFaults: answer.faults });
      return;
    }
    const missing = missingLayers(answer.faults, state.texts);
    this.findings.update({ faults: answer.faults, trialFaults: [], missing });
  }
}
