// The strips as a table, and as CSV.

import type { Quantity, Strips } from "../engine.ts";
import { type LengthUnit, numberText, shownUnit } from "../units.ts";
import { element } from "./dom.ts";
import { cellText, headText } from "./shown_value.ts";

function largestOf(values: readonly (number | null)[]): number {
  return values.reduce<number>((largest, value) => Math.max(largest, Math.abs(value ?? 0)), 0);
}

export class HeightTable {
  readonly element = element("div", { class: "height-table", tabindex: 0, role: "region" });
  private shown: readonly unknown[] = [];

  constructor() {
    this.element.setAttribute("aria-label", "Table over height");
  }

  show(strips: Strips | undefined, quantities: readonly Quantity[], units: LengthUnit): void {
    if (strips === this.shown[0] && units === this.shown[1]) return;
    this.shown = [strips, units];
    if (!strips) {
      this.element.replaceChildren();
      return;
    }
    const told = new Map(quantities.map((quantity) => [quantity.name, quantity]));
    const columns = strips.columns.map((column) => ({
      quantity: told.get(column.name) as Quantity,
      values: column.values,
      largest: largestOf(column.values),
    }));
    const mm = shownUnit("mm", units);
    const heads = [`height, ${mm.symbol}`].concat(
      columns.map((column) => headText(column.quantity, units)),
    );
    const rows = strips.heights_mm.map((height, i) =>
      element(
        "tr",
        {},
        element("th", { scope: "row" }, numberText(mm, height, mm.decimals)),
        ...columns.map(({ quantity, values, largest }) =>
          element("td", {}, cellText(quantity, values[i], units, largest)),
        ),
      ),
    );
    this.element.replaceChildren(
      element(
        "table",
        { class: "board" },
        element("caption", {}, "Over height, going straight"),
        element(
          "thead",
          {},
          element("tr", {}, ...heads.map((words) => element("th", { scope: "col" }, words))),
        ),
        element("tbody", {}, ...rows),
      ),
    );
  }
}
