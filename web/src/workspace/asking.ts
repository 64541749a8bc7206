// Which questions a change of the state brings up, and when the text is written.

import { type Engine, isFailure, type SheetAnswer, type ViewWanted } from "../engine.ts";
import { Behind } from "./behind.ts";
import { Desk } from "./desk.ts";
import type { FindingsStore } from "./findings.ts";
import { FrameLog } from "./frame_log.ts";
import { Present } from "./present.ts";
import { Rest } from "./rest.ts";
import type { State } from "./state.ts";
import type { Store } from "./store.ts";
import { Studies } from "./studies.ts";
import { poseInputs, settingTexts } from "./view_question.ts";
import { Writing } from "./writing.ts";

/** A pause in typing that makes the next letter a step of its own. */
const kTypingRest_ms = 1500;

export class Asking {
  readonly frames = new FrameLog();
  readonly writing: Writing;
  private readonly desk: Desk;
  private readonly present: Present;
  private readonly behind: Behind;
  private readonly studies: Studies;
  private readonly typing: Rest;

  /** `behindEngine` is another one, so that what lies behind never keeps the drawing waiting. */
  constructor(
    private readonly engine: Engine,
    behindEngine: Engine,
    private readonly store: Store,
    private readonly findings: FindingsStore,
    views: () => readonly ViewWanted[],
  ) {
    this.desk = new Desk(engine);
    this.present = new Present(engine, this.desk, store, findings, this.frames, views);
    this.behind = new Behind(behindEngine, new Desk(behindEngine), store, findings, views);
    this.studies = new Studies(engine, this.desk, store, findings);
    this.writing = new Writing(engine, this.desk, store, findings);
    this.typing = new Rest(kTypingRest_ms, () => store.dispatch({ do: "rest" }));
    store.listen((state, before) => this.changed(state, before));
  }

  /** The sheet has more room, or less. */
  resized(): void {
    void this.present.ask();
    this.behind.ask();
  }

  /** The shop sheet of the present pose. */
  async sheet(): Promise<SheetAnswer | undefined> {
    const { file, pose, trial, units, texts } = this.store.state;
    if (file === undefined) return undefined;
    this.desk.lay(texts);
    const answer = await this.engine.ask({
      ask: "sheet",
      file,
      set: settingTexts(trial),
      units,
      ...poseInputs(pose),
    });
    if (!isFailure(answer)) return answer;
    this.findings.update({ notice: answer.faults.map((fault) => fault.what).join("; ") });
    return undefined;
  }

  private changed(state: State, before: State): void {
    const otherTruck = state.file !== before.file;
    if (otherTruck) {
      this.findings.update({ view: undefined, strips: undefined, before: undefined });
    }
    if (state.texts !== before.texts || state.trial.size > before.trial.size) {
      this.findings.update({ trialFaults: [], notice: "" });
    }
    if (!Present.alike(state, before)) void this.present.ask();
    if (!Behind.alike(state, before)) this.behind.ask();
    if (!Studies.alike(state, before)) this.studies.changed(!otherTruck);
    if (state.burst.startsWith("type ")) this.typing.wait();
  }
}
