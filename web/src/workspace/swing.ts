// An angle that swings to and fro, frame by frame, until it is stopped.

const kPeriod_ms = 3000;

/** The angle at a time: it starts at rest in the middle and goes to both ends. */
export function swingAngle(elapsed_ms: number, limit: number): number {
  return limit * Math.sin((2 * Math.PI * elapsed_ms) / kPeriod_ms);
}

export class Swing {
  private frame: number | undefined;

  constructor(
    private readonly limit: number,
    private readonly turn: (angle: number) => void,
  ) {}

  get running(): boolean {
    return this.frame !== undefined;
  }

  start(): void {
    const from_ms = performance.now();
    const step = () => {
      this.frame = requestAnimationFrame(step);
      this.turn(swingAngle(performance.now() - from_ms, this.limit));
    };
    this.frame = requestAnimationFrame(step);
  }

  stop(): void {
    if (this.frame === undefined) return;
    cancelAnimationFrame(this.frame);
    this.frame = undefined;
  }
}
