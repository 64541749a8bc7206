// One slider: its name, what it stands at in words, and the browser's own range input, large enough for a thumb.

import { html, newId, setText } from "./dom.ts";

export interface SliderOptions {
  readonly name: string;
  readonly min: number;
  readonly max: number;
  readonly value: number;
  /** What a value is in words: beside the slider, and for screen readers. */
  readonly say: (value: number) => string;
  /** The slider's left end is the largest value: for what turns or moves to the left. */
  readonly leftIsPositive?: boolean;
}

/** How many places the slider has: finer than a finger, and whole for the arrow keys. */
const kPlaces = 200;

export class Slider {
  readonly element: HTMLElement;
  readonly input: HTMLInputElement;
  private readonly output: HTMLOutputElement;
  private listeners: ((value: number, byHand: boolean) => void)[] = [];

  constructor(private readonly options: SliderOptions) {
    const id = newId("slider");
    const { min, max } = options;
    const step = (max - min) / kPlaces;
    this.input = html("input", { type: "range", id, min, max, step });
    if (options.leftIsPositive) this.input.dir = "rtl";
    this.output = html("output", { for: id });
    this.element = html(
      "div",
      { class: "slider" },
      html("div", { class: "slider-words" }, html("label", { for: id }, options.name), this.output),
      this.input,
    );
    this.input.addEventListener("input", () => this.tell(true));
    this.place(options.value);
  }

  get value(): number {
    return this.input.valueAsNumber;
  }

  get range(): readonly [number, number] {
    return [this.options.min, this.options.max];
  }

  /** Moves it as a hand would. */
  set(value: number): void {
    this.place(value);
    this.tell(false);
  }

  onChange(listener: (value: number, byHand: boolean) => void): void {
    this.listeners.push(listener);
  }

  /** Says its place again, after the unit has changed. */
  refresh(): void {
    const words = this.options.say(this.value);
    setText(this.output, words);
    this.input.setAttribute("aria-valuetext", words);
  }

  private place(value: number): void {
    this.input.value = String(value);
    this.refresh();
  }

  private tell(byHand: boolean): void {
    this.refresh();
    for (const listener of this.listeners) listener(this.value, byHand);
  }
}
