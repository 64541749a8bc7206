// A few things to choose between, as the browser's own radio buttons.

import { html, newId } from "./dom.ts";

export interface Option<Value extends string> {
  readonly value: Value;
  readonly words: string;
}

export class Choice<Value extends string> {
  readonly element: HTMLElement;
  private readonly inputs: HTMLInputElement[];

  constructor(
    name: string,
    options: readonly Option<Value>[],
    chosen: Value,
    onChange: (value: Value) => void,
  ) {
    const group = newId("choice");
    this.inputs = options.map(({ value }) =>
      html("input", { type: "radio", name: group, value, checked: value === chosen }),
    );
    this.inputs.forEach((input, i) => {
      const value = options[i]?.value;
      if (value !== undefined) input.addEventListener("change", () => onChange(value));
    });
    this.element = html(
      "fieldset",
      { class: "choice" },
      html("legend", {}, name),
      ...options.map(({ words }, i) =>
        html("label", {}, this.inputs[i] as HTMLInputElement, html("span", {}, words)),
      ),
    );
  }
}
