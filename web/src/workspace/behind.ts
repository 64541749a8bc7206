// Asks for what lies faintly behind the drawing: the version before the last step, and a second truck.

import type { Engine, Failure, ViewAnswer, ViewWanted } from "../engine.ts";
import { isFailure, newestOnly } from "../engine.ts";
import type { Desk } from "./desk.ts";
import type { FindingsStore } from "./findings.ts";
import { type State, textsBefore } from "./state.ts";
import type { Store } from "./store.ts";
import { behindQuestion } from "./view_question.ts";

export class Behind {
  private readonly newestBefore = newestOnly<ViewAnswer | Failure>();
  private readonly newestOther = newestOnly<ViewAnswer | Failure>();

  constructor(
    private readonly engine: Engine,
    private readonly desk: Desk,
    private readonly store: Store,
    private readonly findings: FindingsStore,
    private readonly views: () => readonly ViewWanted[],
  ) {}

  static alike(a: State, b: State): boolean {
    return (
      textsBefore(a) === textsBefore(b) &&
      a.file === b.file &&
      a.other === b.other &&
      (a.other === undefined || a.texts === b.texts) &&
      a.pose === b.pose &&
      a.strips === b.strips &&
      a.units === b.units &&
      a.large === b.large &&
      a.eye === b.eye
    );
  }

  ask(): void {
    const { file, other } = this.store.state;
    const before = textsBefore(this.store.state);
    if (file !== undefined && before) void this.askBefore();
    else if (this.findings.current.before) this.findings.update({ before: undefined });
    if (other !== undefined) void this.askOther();
    else if (this.findings.current.other || this.findings.current.otherFaults.length > 0) {
      this.findings.update({ other: undefined, otherFaults: [] });
    }
  }

  private async askBefore(): Promise<void> {
    const answer = await this.newestBefore(() => {
      const state = this.store.state;
      const before = textsBefore(state);
      if (state.file === undefined || !before) return Promise.resolve({ faults: [] });
      this.desk.lay(before);
      return this.engine.ask(behindQuestion(state, state.file, this.views()));
    });
    if (!answer) return;
    // A version before that has faults, or none at all, leaves nothing behind the drawing.
    const there = textsBefore(this.store.state) !== undefined && !isFailure(answer);
    this.findings.update({ before: there ? answer : undefined });
  }

  private async askOther(): Promise<void> {
    const answer = await this.newestOther(() => {
      const state = this.store.state;
      if (state.other === undefined) return Promise.resolve({ faults: [] });
      this.desk.lay(state.texts);
      return this.engine.ask(behindQuestion(state, state.other, this.views()));
    });
    if (!answer || this.store.state.other === undefined) return;
    this.findings.update(
      isFailure(answer)
        ? { other: undefined, otherFaults: answer.faults }
        : { other: answer, otherFaults: [] },
    );
  }
}
