// From where the pictorial view is seen: by two sliders, or by dragging the paper.

import { element, newId } from "./dom.ts";
import type { Eye } from "./state.ts";

/** [deg of the eye per pixel of the drag] */
const kDegPerPixel = 0.4;
const kTurn = { least: -180, most: 180 } as const;
const kTilt = { least: -10, most: 90 } as const;

function within(value: number, { least, most }: { least: number; most: number }): number {
  return Math.min(Math.max(value, least), most);
}

/** The paper is dragged as if the truck were held: to the right turns it to the right, down tips it toward the reader. */
export function turnedBy(from: Eye, right_px: number, down_px: number): Eye {
  return {
    turn_deg: within(from.turn_deg - right_px * kDegPerPixel, kTurn),
    tilt_deg: within(from.tilt_deg + down_px * kDegPerPixel, kTilt),
  };
}

export class EyeControl {
  readonly element: HTMLElement;
  private readonly turn = element("input", { type: "range", min: kTurn.least, max: kTurn.most });
  private readonly tilt = element("input", { type: "range", min: kTilt.least, max: kTilt.most });
  private eye: Eye = { turn_deg: 0, tilt_deg: 0 };
  private drag: { readonly x: number; readonly y: number; readonly eye: Eye } | undefined;

  constructor(
    private readonly svg: SVGSVGElement,
    private readonly changed: (eye: Eye) => void,
  ) {
    const labelled = (words: string, input: HTMLInputElement) => {
      input.id = newId("eye");
      return element("span", {}, element("label", { for: input.id }, words), input);
    };
    this.element = element(
      "div",
      { class: "eye" },
      labelled("Turn", this.turn),
      labelled("Tilt", this.tilt),
    );
    for (const input of [this.turn, this.tilt]) {
      input.addEventListener("input", () =>
        changed({ turn_deg: this.turn.valueAsNumber, tilt_deg: this.tilt.valueAsNumber }),
      );
    }
    svg.addEventListener("pointerdown", (event) => this.down(event));
    svg.addEventListener("pointermove", (event) => this.move(event));
    svg.addEventListener("pointerup", () => this.end());
    svg.addEventListener("pointercancel", () => this.end());
  }

  show(eye: Eye, shown: boolean): void {
    this.element.hidden = !shown;
    this.eye = eye;
    const [turn, tilt] = [String(Math.round(eye.turn_deg)), String(Math.round(eye.tilt_deg))];
    if (this.turn.value !== turn) this.turn.value = turn;
    if (this.tilt.value !== tilt) this.tilt.value = tilt;
  }

  /** Only the paper: a point that was taken hold of has had the event already. */
  private down(event: PointerEvent): void {
    if (this.element.hidden || event.defaultPrevented || event.button !== 0) return;
    this.svg.setPointerCapture(event.pointerId);
    this.drag = { x: event.clientX, y: event.clientY, eye: this.eye };
  }

  private move(event: PointerEvent): void {
    if (!this.drag) return;
    const { x, y, eye } = this.drag;
    this.changed(turnedBy(eye, event.clientX - x, event.clientY - y));
  }

  private end(): void {
    this.drag = undefined;
  }
}
