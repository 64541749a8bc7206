// Every point of the file with its coordinates: a coordinate is typed, in any unit, and the engine reads it.

import type { Drawing, DrawnPoint } from "../draw/drawing.ts";
import type { Fault } from "../engine.ts";
import { decimalsFor, type LengthUnit, numberText, shownUnit } from "../units.ts";
import { button, element, setAttribute, setText } from "./dom.ts";
import { type Coordinate, settingName } from "./drag.ts";
import { pointWords } from "./handles.ts";

const kCoordinates: readonly Coordinate[] = ["x", "y", "z"];

export interface PointEvents {
  readonly select: (point: string) => void;
  /** A setting as typed, with its unit. */
  readonly type: (name: string, value: string) => void;
}

/** What was typed, with the reader's unit where it is a bare number. */
export function withUnit(text: string, units: LengthUnit): string {
  const trimmed = text.trim();
  const bare = /^[+-]?(?:[\d.]+|\d+ +\d+\/\d+|\d+\/\d+)$/.test(trimmed);
  return bare ? `${trimmed} ${shownUnit("mm", units).symbol}` : trimmed;
}

class PointRow {
  readonly element: HTMLTableRowElement;
  private readonly name: HTMLButtonElement;
  private readonly on = element("td");
  private readonly inputs: readonly HTMLInputElement[];
  private readonly note = element("td", { class: "point-note" });
  private shown: readonly string[] = ["", "", ""];
  private point: DrawnPoint | undefined;

  constructor(name: string, events: PointEvents, units: () => LengthUnit) {
    this.name = button(pointWords(name), () => events.select(name), { class: "go" });
    this.inputs = kCoordinates.map((coordinate, i) => {
      const input = element("input", {
        type: "text",
        autocomplete: "off",
        spellcheck: "false",
        "aria-label": `${coordinate} of ${pointWords(name)}`,
      });
      input.addEventListener("change", () => {
        if (!this.point || input.value === this.shown[i]) return;
        const value = withUnit(input.value, units());
        if (value === "") this.restore();
        else events.type(settingName(this.point.sets, coordinate), value);
      });
      input.addEventListener("focus", () => events.select(name));
      input.addEventListener("keydown", (event) => {
        if (event.key === "Escape") this.restore();
      });
      return input;
    });
    this.element = element(
      "tr",
      {},
      element("th", { scope: "row" }, this.name),
      this.on,
      ...this.inputs.map((input) => element("td", {}, input)),
      this.note,
    );
  }

  show(point: DrawnPoint, units: LengthUnit, selected: boolean): void {
    this.point = point;
    setText(this.on, pointWords(point.on));
    this.element.classList.toggle("is-selected", selected);
    const notes: string[] = [];
    if (point.sets !== point.name)
      notes.push(`moves with ${pointWords(point.sets)}, whose numbers these are`);
    if (point.from !== undefined) notes.push(`counted from ${pointWords(point.from)}`);
    setText(this.note, notes.join("; "));
    const unit = shownUnit("mm", units);
    const shown = point.measured_mm.map((mm) => numberText(unit, mm, decimalsFor(unit, mm)));
    this.inputs.forEach((input, i) => {
      const text = shown[i] as string;
      if (text === this.shown[i]) return;
      input.value = text;
      input.removeAttribute("aria-invalid");
    });
    this.shown = shown;
  }

  /** What the engine says of a coordinate that was typed. */
  showFaults(faults: ReadonlyMap<string, string>): void {
    this.inputs.forEach((input, i) => {
      const name = settingName(this.point?.sets ?? "", kCoordinates[i] as Coordinate);
      setAttribute(input, "aria-invalid", faults.has(name) ? "true" : undefined);
    });
  }

  private restore(): void {
    this.inputs.forEach((input, i) => {
      input.value = this.shown[i] as string;
      input.removeAttribute("aria-invalid");
    });
  }
}

export class PointsTable {
  readonly element: HTMLElement;
  private readonly body = element("tbody");
  private readonly unit = element("span");
  private readonly fault = element("p", { class: "field-fault", role: "alert" });
  private readonly rows = new Map<string, PointRow>();
  private units: LengthUnit = "mm";

  constructor(private readonly events: PointEvents) {
    const heads = ["Point", "On", "x, forward", "y, to the left", "z, up", "Mirrored"];
    this.element = element(
      "div",
      { class: "points" },
      element(
        "p",
        { class: "note" },
        "As measured, in the truck's frame, in ",
        this.unit,
        ". Type a number, or one with its unit such as 21 1/4 in. A point can also be dragged on the sheet.",
      ),
      this.fault,
      element(
        "table",
        { class: "board" },
        element("caption", { class: "visually-hidden" }, "Points of the truck file"),
        element(
          "thead",
          {},
          element("tr", {}, ...heads.map((words) => element("th", { scope: "col" }, words))),
        ),
        this.body,
      ),
    );
  }

  show(
    drawing: Drawing | undefined,
    units: LengthUnit,
    selected: string | undefined,
    faults: readonly Fault[],
    tried: readonly string[],
  ): void {
    this.units = units;
    setText(this.unit, units === "inch" ? "inches" : "millimetres");
    const points = drawing?.points ?? [];
    const names = new Set(points.map((point) => point.name));
    for (const [name, row] of this.rows) {
      if (names.has(name)) continue;
      row.element.remove();
      this.rows.delete(name);
    }
    const words = faults.map((fault) => (fault.fix ? `${fault.what}: ${fault.fix}` : fault.what));
    setText(this.fault, words.join("; "));
    const wrong = new Map(faults.length > 0 ? tried.map((name) => [name, ""]) : []);
    for (const point of points) {
      let row = this.rows.get(point.name);
      if (!row) {
        row = new PointRow(point.name, this.events, () => this.units);
        this.rows.set(point.name, row);
        this.body.append(row.element);
      }
      row.show(point, units, point.name === selected);
      row.showFaults(wrong);
    }
  }
}
