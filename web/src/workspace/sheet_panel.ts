// The drafting sheet: one large view, the others small beside it, and the title strip.

import type { DrawnPoint, ViewName } from "../draw/drawing.ts";
import type { Influence, ViewAnswer, ViewWanted } from "../engine.ts";
import { pixelsToMm } from "../units.ts";
import { Arrows } from "./arrows.ts";
import { button, element, setAttribute, svgElement } from "./dom.ts";
import { EyeControl } from "./eye_control.ts";
import { type HandleEvents, Handles } from "./handles.ts";
import { Measured, type Room } from "./measured.ts";
import { ScaleBar } from "./scale_bar.ts";
import type { Eye, State } from "./state.ts";
import { ViewPane } from "./view_pane.ts";

const kViews: readonly { readonly name: ViewName; readonly words: string }[] = [
  { name: "front", words: "Front" },
  { name: "side", words: "Side" },
  { name: "top", words: "Top" },
  { name: "pictorial", words: "Pictorial" },
];

/** Small views are drawn on paper this many times their size, so that their lines are thin. */
const kSmall = 2;

/** Small views are lines alone: what they are too small to show takes no time. */
const kSmallPlan = { hidden: false, areas: false, centre_lines: false };

/** From the corner of the paper [mm]. */
const kStampInset = 5;

/** The smallest paper that the engine composes a view for [mm]. */
const kLeastPaper = 10;

interface Slot {
  readonly name: ViewName;
  readonly figure: HTMLElement;
  readonly choose: HTMLButtonElement;
  readonly pane: ViewPane;
  readonly handles: Handles;
  readonly arrows: Arrows;
  readonly scaleBar: ScaleBar;
  /** The pictorial view's alone. */
  readonly eye: EyeControl | undefined;
  /** Says across the drawing that it is not of the pose asked for. */
  readonly stamp: SVGTextElement;
}

export interface SheetEvents extends HandleEvents {
  readonly enlarge: (view: ViewName) => void;
  readonly eye: (eye: Eye) => void;
  /** The room for the views has changed. */
  readonly resized: () => void;
}

export interface SheetContents {
  readonly present: ViewAnswer | undefined;
  readonly before: ViewAnswer | undefined;
  readonly other: ViewAnswer | undefined;
  readonly influences: readonly Influence[];
}

export class SheetPanel {
  readonly element: HTMLElement;
  private readonly slots: readonly Slot[];
  private readonly measured: Measured;

  constructor(private readonly events: SheetEvents) {
    this.slots = kViews.map(({ name, words }) => this.makeSlot(name, words));
    this.element = element("div", { class: "views" }, ...this.slots.map((slot) => slot.figure));
    this.measured = new Measured(events.resized);
    for (const slot of this.slots) this.measured.watch(slot.pane.svg);
  }

  get dragging(): boolean {
    return this.slots.some((slot) => slot.handles.dragging);
  }

  /** The views that there is room for, the large one first. */
  wanted(state: State): ViewWanted[] {
    const views: ViewWanted[] = [];
    for (const slot of this.slots) {
      const large = slot.name === state.large;
      const paper_mm = paperFor(this.measured.of(slot.pane.svg), large ? 1 : kSmall);
      if (!paper_mm) continue;
      const view: ViewWanted = {
        view: slot.name,
        paper_mm,
        ...(large ? {} : kSmallPlan),
        ...(slot.name === "pictorial" ? state.eye : {}),
        ...(large && state.selected !== undefined ? { swept: [state.selected] } : {}),
      };
      if (large) views.unshift(view);
      else views.push(view);
    }
    return views;
  }

  show(state: State, contents: SheetContents): void {
    const selected = state.selected;
    for (const slot of this.slots) {
      const large = slot.name === state.large;
      slot.figure.classList.toggle("is-large", large);
      setAttribute(slot.choose, "aria-pressed", large ? "true" : "false");
      const of = (answer: ViewAnswer | undefined) =>
        answer?.views.find((view) => view.view === slot.name);
      slot.pane.show(
        { present: of(contents.present), before: of(contents.before), other: of(contents.other) },
        this.dragging,
      );
      slot.figure.classList.toggle(
        "is-last-reached",
        contents.present !== undefined && !contents.present.complete,
      );
      slot.eye?.show(state.eye, large);
      const drawing = slot.pane.drawing;
      if (large && drawing) {
        slot.handles.show(drawing, selected, pixelsToMm(1));
        slot.arrows.show(drawing, contents.influences);
        slot.scaleBar.show(drawing, state.units);
        setAttribute(slot.stamp, "x", drawing.paper_mm[0] - kStampInset);
        setAttribute(slot.stamp, "y", drawing.paper_mm[1] - kStampInset);
      } else {
        slot.handles.clear();
        slot.arrows.show(undefined, []);
        slot.scaleBar.clear();
      }
    }
  }

  svgOf(view: ViewName): SVGSVGElement {
    return (this.slots.find((slot) => slot.name === view) as Slot).pane.svg;
  }

  /** Where a point is drawn in the large view. */
  pointOf(state: State, name: string): DrawnPoint | undefined {
    const slot = this.slots.find((one) => one.name === state.large);
    return slot?.pane.drawing?.points.find((point) => point.name === name);
  }

  private makeSlot(name: ViewName, words: string): Slot {
    const pane = new ViewPane(`${words} view`);
    // Holds things to take hold of, which an image would hide from a screen reader.
    pane.svg.setAttribute("role", "group");
    const choose = button(words, () => this.events.enlarge(name), { class: "view-name" });
    const figure = element("figure", { class: "view", "data-view": name }, choose);
    figure.append(pane.svg);
    const handles = new Handles(pane.svg, figure, this.events);
    const eye = name === "pictorial" ? new EyeControl(pane.svg, this.events.eye) : undefined;
    if (eye) figure.append(eye.element);
    const arrows = new Arrows();
    const scaleBar = new ScaleBar();
    const stamp = svgElement(
      "text",
      { class: "stamp", "text-anchor": "end", "aria-hidden": "true" },
      "LAST POSE REACHED",
    );
    pane.overlay.append(scaleBar.element, stamp, arrows.element, handles.element);
    pane.svg.addEventListener("click", () => {
      if (!figure.classList.contains("is-large")) this.events.enlarge(name);
    });
    return { name, figure, choose, pane, handles, arrows, scaleBar, stamp, eye };
  }
}

/** As much paper as the screen has room for, in tenths of a millimetre; nothing where a view is not shown. */
function paperFor(room: Room, times: number): [number, number] | undefined {
  const tenths = (pixels: number) => Math.round(pixelsToMm(pixels * times) * 10) / 10;
  const [width, height] = [tenths(room.width), tenths(room.height)];
  return width < kLeastPaper || height < kLeastPaper ? undefined : [width, height];
}
