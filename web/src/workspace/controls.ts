// The one group of sliders: height, lean, steering, travel.

import type { ViewAnswer } from "../engine.ts";
import { button, element, newId } from "./dom.ts";
import { NumberField } from "./number_field.ts";
import type { LengthInput, Pose, State, Steering } from "./state.ts";

export interface ControlEvents {
  readonly pose: (change: Partial<Pose>) => void;
  readonly steer: (steering: Steering) => void;
  readonly level: () => void;
}

const kSteering: readonly { readonly by: Steering["by"]; readonly words: string }[] = [
  { by: "straight_ahead", words: "going straight" },
  { by: "held", words: "wheel held centred" },
  { by: "steering_wheel_deg", words: "steering wheel at" },
  { by: "road_wheels_deg", words: "road wheels at" },
  { by: "pitman_deg", words: "pitman arm at" },
];

/** Ranges of sliders where the answer tells none [deg]. A field takes any number; the engine says what it makes of it. */
const kRoadWheels: readonly [number, number] = [-40, 40];
const kSteeringWheel: readonly [number, number] = [-720, 720];

type Range = readonly [number, number];

export class Controls {
  readonly element: HTMLElement;
  private readonly height: NumberField;
  private readonly lean: NumberField;
  private readonly travel: NumberField;
  private readonly left: NumberField;
  private readonly right: NumberField;
  private readonly angle: NumberField;
  private readonly steerBy: HTMLSelectElement;

  constructor(private readonly events: ControlEvents) {
    const length = (words: string, input: LengthInput, hint: string) =>
      new NumberField({
        words,
        kind: "length",
        hint,
        onValue: (value) => events.pose({ [input]: value }),
      });
    this.height = length("Height", "height_mm", "up from as measured");
    this.travel = length("Both wheels", "travel_mm", "bump is positive");
    this.left = length("Left wheel", "travel_left_mm", "bump is positive");
    this.right = length("Right wheel", "travel_right_mm", "bump is positive");
    this.lean = new NumberField({
      words: "Lean",
      kind: "angle",
      hint: "left side up is positive",
      onValue: (lean_deg) => events.pose({ lean_deg }),
    });
    this.angle = new NumberField({
      words: "Steering angle",
      kind: "angle",
      hint: "left is positive",
      onValue: (angle_deg) => this.steer(angle_deg),
    });
    const id = newId("steer");
    this.steerBy = element(
      "select",
      { id },
      ...kSteering.map(({ by, words }) => element("option", { value: by }, words)),
    );
    this.steerBy.addEventListener("change", () => this.steer(0));
    const steering = element(
      "div",
      { class: "steering" },
      element("label", { for: id }, "Steering"),
      this.steerBy,
      this.angle.element,
    );
    const level = button("Level", events.level, {
      class: "level",
      title: "height, lean and travel 0, going straight",
    });
    this.element = element(
      "div",
      { class: "controls", role: "group", "aria-label": "Height, lean, steering and travel" },
      this.height.element,
      this.lean.element,
      steering,
      this.travel.element,
      this.left.element,
      this.right.element,
      level,
    );
  }

  show(state: State, view: ViewAnswer | undefined): void {
    const { pose, units } = state;
    const travel: Range = view?.travel_mm ?? [0, 0];
    const lean = view?.lean_limit_deg ?? 0;
    this.height.show(pose.height_mm, view?.height_range_mm ?? [0, 0], units);
    this.lean.show(pose.lean_deg, [-lean, lean], units);
    this.travel.show(pose.travel_mm, travel, units);
    this.left.show(pose.travel_left_mm, travel, units);
    this.right.show(pose.travel_right_mm, travel, units);
    const { steering } = pose;
    if (this.steerBy.value !== steering.by) this.steerBy.value = steering.by;
    const told = "angle_deg" in steering;
    this.angle.setDisabled(!told);
    this.angle.show(told ? steering.angle_deg : 0, steeringRange(steering, view), units);
  }

  private steer(angle_deg: number): void {
    const by = this.steerBy.value as Steering["by"];
    if (by === "straight_ahead" || by === "held") this.events.steer({ by });
    else this.events.steer({ by, angle_deg });
  }
}

function steeringRange(steering: Steering, view: ViewAnswer | undefined): Range {
  if (steering.by === "steering_wheel_deg") {
    return view?.steering_wheel_limit_deg ?? kSteeringWheel;
  }
  return kRoadWheels;
}
