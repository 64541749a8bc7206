// Play: moves a slider up and down by itself until it is stopped or the slider is taken. Where the reader asked for less motion
// nothing moves by itself: the same button goes from one place to the next.

import { html, setText } from "./dom.ts";
import type { Slider } from "./slider.ts";

/** From one end to the other. */
const kSweep_ms = 4200;

const kSteps = [0, 0.25, 0.5, 0.75, 1] as const;

export interface PlayWords {
  readonly play: string;
  readonly stop: string;
  readonly step: string;
}

/** Starts and ends gently. */
export function eased(share: number): number {
  return share * share * (3 - 2 * share);
}

/** Where the slider is, as a share of its range, after so long: up, down, up again. */
export function placeAfter(elapsed_ms: number): number {
  const sweeps = elapsed_ms / kSweep_ms;
  const share = sweeps % 2;
  return eased(share > 1 ? 2 - share : share);
}

/** The step after a place; from the last one on to the first. */
export function nextStep(share: number): number {
  return kSteps.find((step) => step > share + 0.01) ?? kSteps[0];
}

/** When, on its way up, the motion is at a place: the inverse of `eased`. */
export function timeOf(share: number): number {
  const s = Math.min(1, Math.max(0, share));
  return kSweep_ms * (0.5 - Math.sin(Math.asin(1 - 2 * s) / 3));
}

export class Play {
  readonly button = html("button", { type: "button", class: "play" });
  private readonly calm = matchMedia("(prefers-reduced-motion: reduce)");
  private frame = 0;

  constructor(
    private readonly slider: Slider,
    private readonly words: PlayWords,
  ) {
    this.button.addEventListener("click", () => this.press());
    slider.onChange((_, byHand) => {
      if (byHand) this.stop();
    });
    this.calm.addEventListener("change", () => {
      this.stop();
    });
    this.write();
  }

  /** Once from bottom to top, unless the reader asked for less motion: then it stands at the top at once. */
  showOnce(): void {
    if (this.calm.matches) this.slider.set(this.slider.range[1]);
    else this.start(kSweep_ms);
  }

  stop(): void {
    cancelAnimationFrame(this.frame);
    this.frame = 0;
    this.write();
  }

  private press(): void {
    if (this.calm.matches) this.to(nextStep(this.share()));
    else if (this.frame !== 0) this.stop();
    else this.start(Number.POSITIVE_INFINITY);
  }

  private share(): number {
    const [min, max] = this.slider.range;
    return (this.slider.value - min) / (max - min);
  }

  private to(share: number): void {
    const [min, max] = this.slider.range;
    this.slider.set(min + share * (max - min));
  }

  private start(until_ms: number): void {
    const begun = timeOf(this.share());
    let first = 0;
    const tick = (now: number) => {
      first ||= now;
      const elapsed = begun + now - first;
      this.to(placeAfter(Math.min(elapsed, until_ms)));
      if (elapsed >= until_ms) this.stop();
      else this.frame = requestAnimationFrame(tick);
    };
    this.frame = requestAnimationFrame(tick);
    this.write();
  }

  private write(): void {
    const { play, stop, step } = this.words;
    setText(this.button, this.calm.matches ? step : this.frame !== 0 ? stop : play);
  }
}
