// When each answer was asked for, came and was on the page: for the bench, which reads `window.axlewrightFrames`.

export interface Frame {
  readonly asked_ms: number;
  readonly answered_ms: number;
  readonly painted_ms: number;
  /** Whether the strips were solved anew. */
  readonly strips: boolean;
}

declare global {
  interface Window {
    axlewrightFrames?: Frame[];
  }
}

const kKept = 500;

export class FrameLog {
  private waiting: Omit<Frame, "painted_ms"> | undefined;

  answered(asked_ms: number, strips: boolean): void {
    this.waiting = { asked_ms, answered_ms: performance.now(), strips };
  }

  painted(): void {
    if (!this.waiting) return;
    window.axlewrightFrames ??= [];
    const frames = window.axlewrightFrames;
    frames.push({ ...this.waiting, painted_ms: performance.now() });
    if (frames.length > kKept) frames.shift();
    this.waiting = undefined;
  }
}
