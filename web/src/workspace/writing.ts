// Writes what was tried into the texts, as the engine does it: only the numbers change.

import type { Engine } from "../engine.ts";
import { isFailure } from "../engine.ts";
import type { Desk } from "./desk.ts";
import type { FindingsStore } from "./findings.ts";
import { Rest } from "./rest.ts";
import type { Store } from "./store.ts";
import { settingTexts } from "./view_question.ts";

/** After a nudge by key another may follow; they become one change of the text. */
const kRest_ms = 300;

export class Writing {
  private readonly rest = new Rest(kRest_ms, () => void this.write());

  constructor(
    private readonly engine: Engine,
    private readonly desk: Desk,
    private readonly store: Store,
    private readonly findings: FindingsStore,
  ) {}

  later(): void {
    this.rest.wait();
  }

  /** At once: a drag has ended, or a field was left. */
  now(): Promise<void> {
    this.rest.cancel();
    return this.write();
  }

  /** While a point is being dragged nothing is written. */
  hold(): void {
    this.rest.cancel();
  }

  private async write(): Promise<void> {
    const { file, trial, texts } = this.store.state;
    if (file === undefined || trial.size === 0) return;
    this.desk.lay(texts);
    const answer = await this.engine.ask({ ask: "edit", file, set: settingTexts(trial) });
    if (isFailure(answer)) {
      if (this.store.state.trial !== trial) return;
      this.store.dispatch({ do: "give up" });
      this.findings.update({ trialFaults: answer.faults });
      return;
    }
    if (this.store.state.texts !== texts) {
      // Typed into meanwhile: written once more, into what is there now.
      await this.write();
      return;
    }
    const after = new Map(answer.files.map((one) => [one.file, one.after]));
    this.store.dispatch({ do: "written", trial, texts: after });
  }
}
