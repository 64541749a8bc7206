// A field for a length or an angle with its slider. Text is read when the field is left or Enter is pressed; what cannot be read is
// said beside it, and the value stays.

import { decimalsFor, type LengthUnit, numberText, shownUnit } from "../units.ts";
import { element, newId, setAttribute, setText } from "./dom.ts";
import { type QuantityKind, readQuantity } from "./quantity_text.ts";

export interface NumberFieldOptions {
  readonly words: string;
  readonly kind: QuantityKind;
  /** Which way is positive, in words. */
  readonly hint: string;
  readonly onValue: (value: number) => void;
}

/** Steps of the slider: a millimetre, a tenth of a degree. */
const kStep: Readonly<Record<QuantityKind, number>> = { length: 1, angle: 0.1 };

export class NumberField {
  readonly element: HTMLElement;
  private readonly slider: HTMLInputElement;
  private readonly input: HTMLInputElement;
  private readonly unit = element("span", { class: "unit" });
  private readonly fault = element("span", { class: "field-fault", role: "alert" });
  private units: LengthUnit = "mm";
  private value = Number.NaN;
  /** What the field was last given to show: leaving it untouched sets nothing. */
  private shown = "";

  constructor(private readonly options: NumberFieldOptions) {
    const id = newId("field");
    const faultId = newId("fault");
    const step = kStep[options.kind];
    this.slider = element("input", { type: "range", step, "aria-label": options.words });
    this.input = element("input", {
      type: "text",
      id,
      inputmode: "text",
      autocomplete: "off",
      spellcheck: "false",
      "aria-describedby": faultId,
    });
    this.fault.id = faultId;
    this.element = element(
      "div",
      { class: "control" },
      element("label", { for: id }, options.words),
      element("span", { class: "entry" }, this.input, this.unit),
      this.slider,
      element("span", { class: "hint" }, options.hint),
      this.fault,
    );
    this.slider.addEventListener("input", () => {
      this.clearFault();
      options.onValue(this.slider.valueAsNumber);
    });
    this.input.addEventListener("change", () => this.read());
    this.input.addEventListener("input", () => this.clearFault());
    this.input.addEventListener("keydown", (event) => this.key(event));
  }

  show(value: number, range: readonly [number, number], units: LengthUnit): void {
    setAttribute(this.slider, "min", range[0]);
    setAttribute(this.slider, "max", range[1]);
    const clamped = String(Math.min(Math.max(value, range[0]), range[1]));
    if (this.slider.value !== clamped) this.slider.value = clamped;
    if (value === this.value && units === this.units) return;
    this.value = value;
    this.units = units;
    this.write();
  }

  setDisabled(disabled: boolean): void {
    this.slider.disabled = disabled;
    this.input.disabled = disabled;
  }

  private unitName(): string {
    return this.options.kind === "length" ? "mm" : "deg";
  }

  private write(): void {
    const unit = shownUnit(this.unitName(), this.units);
    this.shown = numberText(unit, this.value, decimalsFor(unit, this.value));
    this.input.value = this.shown;
    setText(this.unit, unit.symbol);
    const slider = `${this.shown} ${unit.symbol}`;
    setAttribute(this.slider, "aria-valuetext", slider);
    this.clearFault();
  }

  private read(): void {
    if (this.input.value === this.shown) return;
    const bare = shownUnit(this.unitName(), this.units).symbol;
    const read = readQuantity(this.input.value, this.options.kind, bare);
    if (!read.ok) {
      setText(this.fault, read.what);
      this.input.setAttribute("aria-invalid", "true");
      return;
    }
    if (read.value === this.value) this.write();
    else this.options.onValue(read.value);
  }

  private key(event: KeyboardEvent): void {
    if (event.key === "Enter") {
      this.read();
    } else if (event.key === "Escape") {
      this.write();
    }
  }

  private clearFault(): void {
    setText(this.fault, "");
    this.input.removeAttribute("aria-invalid");
  }
}
