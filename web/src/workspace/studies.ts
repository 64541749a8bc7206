// The questions that take long: `sweep` over the whole grid, `check`, and `compare` with a second truck. They wait until the page has been at rest, and what
// runs is given up at the next change.

import type { Engine } from "../engine.ts";
import { isFailure } from "../engine.ts";
import type { Desk } from "./desk.ts";
import type { Findings, FindingsStore, Study } from "./findings.ts";
import { Rest } from "./rest.ts";
import type { State } from "./state.ts";
import type { Store } from "./store.ts";
import { settingTexts } from "./view_question.ts";

const kRest_ms = 300;

type StudyName = "sweep" | "check" | "compare";

export class Studies {
  private readonly rest = new Rest(kRest_ms, () => void this.run());
  private running = new AbortController();

  constructor(
    private readonly engine: Engine,
    private readonly desk: Desk,
    private readonly store: Store,
    private readonly findings: FindingsStore,
  ) {}

  static alike(a: State, b: State): boolean {
    return (
      a.texts === b.texts &&
      a.trial === b.trial &&
      a.file === b.file &&
      a.other === b.other &&
      a.units === b.units &&
      a.matterFor === b.matterFor
    );
  }

  /** What was answered is no longer of what is there. */
  changed(sameTruck: boolean): void {
    this.running.abort();
    const stale = <A>(study: Study<A>): Study<A> => ({
      answer: sameTruck ? study.answer : undefined,
      fresh: false,
      progress: undefined,
    });
    const { sweep, check, compare } = this.findings.current;
    this.findings.update({ sweep: stale(sweep), check: stale(check), compare: stale(compare) });
    this.rest.wait();
  }

  private async run(): Promise<void> {
    const stop = new AbortController();
    this.running = stop;
    const { file, other, trial, units, matterFor, texts } = this.store.state;
    if (file === undefined) return;
    this.desk.lay(texts);
    const set = settingTexts(trial);
    const shared = { file, set, units };
    const went = await this.study("sweep", stop, (options) =>
      this.engine.ask({ ask: "sweep", quantity: matterFor, ...shared }, options),
    );
    if (!went) return;
    if (other !== undefined) {
      // What is tried belongs to the first truck alone: it is compared once it is written.
      await this.study("compare", stop, (options) =>
        this.engine.ask({ ask: "compare", files: [file, other], units }, options),
      );
    }
    await this.study("check", stop, (options) =>
      this.engine.ask({ ask: "check", ...shared }, options),
    );
  }

  /** False where it was given up, or there is no answer: `view` shows the faults then. */
  private async study<N extends StudyName>(
    name: N,
    stop: AbortController,
    ask: (options: {
      readonly signal: AbortSignal;
      readonly onProgress: (share: number) => void;
    }) => Promise<object>,
  ): Promise<boolean> {
    const tell = (change: Partial<Study<unknown>>) => {
      if (stop.signal.aborted) return;
      const study = { ...this.findings.current[name], ...change };
      this.findings.update({ [name]: study } as Partial<Findings>);
    };
    tell({ progress: 0 });
    try {
      const answer = await ask({
        signal: stop.signal,
        onProgress: (progress) => tell({ progress }),
      });
      if (isFailure(answer)) {
        tell({ progress: undefined });
        return false;
      }
      tell({ answer, fresh: true, progress: undefined });
      return true;
    } catch (error) {
      if (stop.signal.aborted) return false;
      throw error;
    }
  }
}
