// The slider that raises a truck, and the button that raises and lowers it.

import { Play } from "./play.ts";
import type { Reader } from "./reader.ts";
import { length } from "./say/words.ts";
import { Slider } from "./slider.ts";

export interface HeightSlider {
  readonly slider: Slider;
  readonly play: Play;
  /** Both, to be put among controls. */
  readonly elements: readonly Node[];
}

/** A slider whose words follow the reader's unit. */
export function liveSlider(
  reader: Reader,
  options: ConstructorParameters<typeof Slider>[0],
): Slider {
  const slider = new Slider(options);
  reader.onChange(() => slider.refresh());
  return slider;
}

export function heightSlider(
  reader: Reader,
  [bottom, top]: readonly [number, number],
  onHeight: (height_mm: number) => void,
  at: number = bottom,
): HeightSlider {
  const slider = liveSlider(reader, {
    name: "Height of the truck",
    min: bottom,
    max: top,
    value: at,
    say: (height) => `raised ${length(height - bottom, reader.unit)}`,
  });
  slider.onChange(onHeight);
  const play = new Play(slider, {
    play: "Play: raise and lower",
    stop: "Stop",
    step: "Next height",
  });
  return { slider, play, elements: [slider.element, play.button] };
}
