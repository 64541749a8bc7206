// Inch or metric, for the whole page.

import type { LengthUnit } from "../units.ts";
import { Choice } from "./choice.ts";
import type { Reader } from "./reader.ts";

export function unitsSwitch(reader: Reader): HTMLElement {
  const choice = new Choice<LengthUnit>(
    "Lengths in",
    [
      { value: "mm", words: "mm" },
      { value: "inch", words: "inches" },
    ],
    reader.unit,
    (unit) => reader.choose(unit),
  );
  return choice.element;
}
