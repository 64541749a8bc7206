// What the reader has chosen for the whole page.

import type { LengthUnit } from "../units.ts";

export class Reader {
  private listeners: (() => void)[] = [];

  constructor(private chosen: LengthUnit) {}

  get unit(): LengthUnit {
    return this.chosen;
  }

  choose(unit: LengthUnit): void {
    this.chosen = unit;
    for (const listener of this.listeners) listener();
  }

  onChange(listener: () => void): void {
    this.listeners.push(listener);
  }
}
