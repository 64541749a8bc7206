// Two plain bars, one that holds and one that steers: each swings on its own arc. Drawn from the engine's poses as the frame sees
// them: where the axle carries the steering bar's end (going straight), and where that bar itself would swing it (wheel held).

import type { Drawing, Place3 } from "../../draw/drawing.ts";
import type { PoseInputs } from "../../engine.ts";
import { askView, fromAbove, fromBehind } from "../ask.ts";
import { type Box, boxOfSpots, wholePaper } from "../camera.ts";
import { kPlainPoints, type Role } from "../cast.ts";
import { html } from "../dom.ts";
import { type Mark, onFrame, spotOf } from "../marks.ts";
import { Picture } from "../picture.ts";
import { refusalNote } from "../say/refusal.ts";
import { bumped, held, rolling } from "../say/story.ts";
import { length } from "../say/words.ts";
import type { Answers, Display, Exhibit } from "../stage.ts";
import { SteeringWheel } from "../steering_wheel.ts";
import type { Show } from "../trucks.ts";
import { boxOver, wayOver } from "./single.ts";

export type Winner = "tyres" | "hands";

export interface TwoBarsState {
  readonly height: number;
  readonly bump: number;
  readonly winner: Winner;
}

const kRatio = 1.35;
const kBehind = fromBehind(kRatio);
const kSmallRatio = 1.2;
const kAbove = fromAbove(kSmallRatio);
const kMargin_mm = 200;
const kNearRatio = 1;
const kNear_mm = 40;

const kBars = [
  kPlainPoints.barOnFrame,
  kPlainPoints.barOnAxle,
  kPlainPoints.arm,
  kPlainPoints.knuckle,
] as const;

/** The two ways of the steering bar's end, in the frame. */
interface Ways {
  /** Where the axle carries it: the truck goes straight. */
  readonly carried: readonly Place3[];
  /** Where that bar itself would swing it: the steering wheel is held. */
  readonly swung: readonly Place3[];
}

function wayMarks(drawing: Drawing, { carried, swung }: Ways): Mark[] {
  return [
    { is: "line", kind: "carried", spots: onFrame(drawing, carried) },
    { is: "line", kind: "arc", spots: onFrame(drawing, swung) },
  ];
}

function barMarks(drawing: Drawing): Mark[] {
  const [frame, axle, arm, knuckle] = kBars.map((name) => spotOf(drawing, name));
  if (!frame || !axle || !arm || !knuckle) return [];
  return [
    { is: "line", kind: "bar", spots: [frame, axle] },
    { is: "line", kind: "bar", spots: [arm, knuckle] },
    ...[frame, axle, arm, knuckle].map((at): Mark => ({ is: "dot", at })),
  ];
}

/** The steering bar's end now: on one of the two ways. */
function endMarks(drawing: Drawing): Mark[] {
  const [arm, knuckle] = [kPlainPoints.arm, kPlainPoints.knuckle].map((name) =>
    spotOf(drawing, name),
  );
  if (!arm || !knuckle) return [];
  return [
    { is: "line", kind: "bar", spots: [arm, knuckle] },
    { is: "dot", at: knuckle },
  ];
}

function key(): HTMLElement {
  return html(
    "div",
    { class: "key" },
    html("p", {}, "The steering bar’s end, magnified, seen from the frame:"),
    html("p", { class: "key-carried" }, "where the axle carries it"),
    html("p", { class: "key-arc" }, "where the bar itself would swing it"),
  );
}

export class TwoBars implements Exhibit<TwoBarsState> {
  private ways: Ways = { carried: [], swung: [] };
  private box: Box | undefined;

  constructor(
    private readonly show: Show,
    private readonly role: Role,
  ) {}

  async prepare(): Promise<void> {
    const { show, role } = this;
    const { knuckle } = kPlainPoints;
    this.ways = {
      carried: await wayOver(show, role.truck, knuckle, { straight_ahead: true }),
      swung: await wayOver(show, role.truck, knuckle, { held: true }),
    };
    this.box = await boxOver(show, role.truck, kBehind, kBars, kMargin_mm);
  }

  async answers({ height, bump, winner }: TwoBarsState): Promise<Answers> {
    const ask = (pose: PoseInputs) =>
      askView(this.show.engine, this.role.truck.file, { height_mm: height, ...pose }, [
        kBehind,
        kAbove,
      ]);
    if (winner === "tyres") return [await ask({ travel_mm: bump, straight_ahead: true })];
    return [await ask({ travel_mm: bump, held: true }), await ask({ held: true })];
  }

  display(): Display<TwoBarsState> {
    const wheel = new SteeringWheel(this.role.truck.name);
    const above = new Picture({ name: "Road wheels, seen from above", ratio: kSmallRatio });
    const behind = new Picture({
      name: "Axle, holding bar and steering bar, seen from behind",
      ratio: kRatio,
      marked: ["track_bar", "drag_link"],
    });
    const near = new Picture({
      name: "The steering bar’s end, magnified, with the two ways that it could go",
      ratio: kNearRatio,
      quiet: true,
    });
    return {
      element: html(
        "div",
        { class: "two-bars" },
        html("div", { class: "wheel-beside" }, wheel.element, above.element),
        behind.element,
        html("div", { class: "near" }, near.element, key()),
      ),
      show: (_, [answer]) => {
        if (!answer) return;
        wheel.show(answer.values?.steering_wheel_off_centre_deg ?? undefined);
        const [seenBehind, seenAbove] = answer.views;
        if (seenAbove) above.show(seenAbove, wholePaper(seenAbove, kSmallRatio), [], "");
        if (!seenBehind || !this.box) return;
        const ways = wayMarks(seenBehind, this.ways);
        const marks = [...barMarks(seenBehind), ...ways];
        behind.show(seenBehind, this.box, marks, refusalNote(answer));
        const end = spotOf(seenBehind, kPlainPoints.knuckle);
        const box = end && boxOfSpots([end], kNear_mm * seenBehind.scale);
        if (box) near.show(seenBehind, box, [...endMarks(seenBehind), ...ways], "");
      },
    };
  }

  words({ height, bump, winner }: TwoBarsState, [answer, before]: Answers): string {
    const { values } = answer ?? {};
    if (!values) return "";
    const unit = this.show.reader.unit;
    const raised = height - this.role.truck.aligned;
    if (winner === "tyres") {
      const { steering_wheel_off_centre_deg: wheel, axle_walk_side_mm: walk } = values;
      if (typeof wheel !== "number" || typeof walk !== "number") return "";
      return rolling(raised, wheel, walk, unit);
    }
    const steer = values.mean_steer_deg;
    const without = before?.values?.mean_steer_deg;
    if (typeof steer !== "number") return "";
    if (Math.abs(bump) < 0.5 || typeof without !== "number") return held(raised, steer, unit);
    const way = bump > 0 ? `a bump of ${length(bump, unit)}` : `a dip of ${length(bump, unit)}`;
    return bumped(without, steer, way);
  }
}
