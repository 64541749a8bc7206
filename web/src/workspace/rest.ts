// Runs a job once nothing has called for it for a while.

export class Rest {
  private timer: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly after_ms: number,
    private readonly job: () => void,
  ) {}

  /** Begins to wait, or begins anew. */
  wait(): void {
    this.cancel();
    this.timer = setTimeout(() => {
      this.timer = undefined;
      this.job();
    }, this.after_ms);
  }

  /** Runs at once what is waited for. */
  now(): void {
    if (this.timer === undefined) return;
    this.cancel();
    this.job();
  }

  cancel(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
  }
}
