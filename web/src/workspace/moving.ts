// A point that is dragged, nudged by key or typed, as changes that are tried and then written.

import type { DrawnPoint } from "../draw/drawing.ts";
import { toMm } from "../units.ts";
import { dragSettings, paperStep } from "./drag.ts";
import type { HandleEvents } from "./handles.ts";
import type { Store } from "./store.ts";
import type { Writing } from "./writing.ts";

/** By key: of the truck, in the reader's unit. */
const kNudge = { mm: { coarse: 1, fine: 0.1 }, inch: { coarse: 0.1, fine: 0.01 } } as const;

interface Nudged {
  readonly point: DrawnPoint;
  readonly right_mm: number;
  readonly up_mm: number;
}

export class Moving implements HandleEvents {
  private drags = 0;
  /** Where the keys have moved a point since it was last drawn. */
  private nudged: Nudged | undefined;

  /** `upToDate`: whether what is drawn is of the state as it is. */
  constructor(
    private readonly store: Store,
    private readonly writing: Writing,
    private readonly upToDate: () => boolean,
  ) {}

  readonly select = (point: string | undefined): void => {
    if (this.store.state.selected !== point) this.store.dispatch({ do: "select", point });
  };

  readonly begin = (): void => {
    this.drags += 1;
    this.writing.hold();
  };

  readonly move = (point: DrawnPoint, right_mm: number, up_mm: number): void => {
    const settings = dragSettings(point, right_mm, up_mm, this.store.state.units);
    this.store.dispatch({ do: "try", settings, burst: `drag ${this.drags}`, replace: true });
  };

  readonly end = (): void => {
    if (this.store.state.trial.size === 0) this.cancel();
    else void this.writing.now();
  };

  readonly cancel = (): void => this.store.dispatch({ do: "give up" });

  readonly nudge = (drawn: DrawnPoint, right: number, up: number, fine: boolean): void => {
    const { units } = this.store.state;
    // Keys may come faster than drawings: then they go on from where the keys before them were.
    const goesOn = this.nudged?.point.name === drawn.name && !this.upToDate();
    const from = goesOn && this.nudged ? this.nudged : { point: drawn, right_mm: 0, up_mm: 0 };
    const step_mm = toMm(kNudge[units][fine ? "fine" : "coarse"], units);
    const right_mm = from.right_mm + right * paperStep(from.point, "across", step_mm);
    const up_mm = from.up_mm + up * paperStep(from.point, "up", step_mm);
    this.nudged = { point: from.point, right_mm, up_mm };
    const settings = dragSettings(from.point, right_mm, up_mm, units);
    this.store.dispatch({ do: "try", settings, burst: `nudge ${drawn.name}` });
    this.writing.later();
  };

  readonly type = (name: string, value: string): void => {
    this.store.dispatch({ do: "try", settings: new Map([[name, value]]), burst: "" });
    void this.writing.now();
  };
}
