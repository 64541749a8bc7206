// Turn the steering wheel: what moves what.

import type { Drawing } from "../../draw/drawing.ts";
import { askView, pictorial } from "../ask.ts";
import { type Box, boxAround, wholePaper } from "../camera.ts";
import { castText, kPlainPoints, type Role } from "../cast.ts";
import { chapter, controls } from "../chapter.ts";
import { html } from "../dom.ts";
import { distance, type Mark, spotOf, stepTowards } from "../marks.ts";
import { Picture } from "../picture.ts";
import { Play } from "../play.ts";
import { refusalNote } from "../say/refusal.ts";
import { heading, wheelPlace } from "../say/words.ts";
import { Slider } from "../slider.ts";
import { type Display, type Exhibit, Stage } from "../stage.ts";
import { SteeringWheel } from "../steering_wheel.ts";
import type { Show } from "../trucks.ts";
import type { Opening } from "./opening.ts";

interface State {
  readonly wheel: number;
}

const kRatio = 1.5;
const kView = pictorial(kRatio, 180, 40);

/** Its upper end, where the file has it by that name. */
const kGear = "sector_shaft_high";

/** The road wheels' tracks, and what stands between them. */
const kSeen = ["wheel_centre_left", "wheel_centre_right", kGear];
const kMargin_mm = 420;

/** Names at the parts, in the order in which the push travels. */
function names(drawing: Drawing): Mark[] {
  const arm = spotOf(drawing, kPlainPoints.arm);
  const knuckle = spotOf(drawing, kPlainPoints.knuckle);
  const left = spotOf(drawing, kPlainPoints.tieRodLeft);
  const right = spotOf(drawing, kPlainPoints.tieRodRight);
  const gear = spotOf(drawing, kGear);
  if (!arm || !knuckle || !left || !right) return [];
  const named: Mark[] = [
    // Away from the steering bar: to the right where the gear is on the right.
    { is: "name", at: arm, text: "arm", towards: arm[0] < knuckle[0] ? "left" : "right" },
    {
      is: "name",
      at: stepTowards(arm, knuckle, 0.55 * distance(arm, knuckle)),
      text: "steering bar",
      towards: "above",
    },
    {
      is: "name",
      at: stepTowards(left, right, 0.6 * distance(left, right)),
      text: "tie rod",
      towards: "below",
    },
  ];
  if (gear) named.push({ is: "name", at: gear, text: "gear on the frame", towards: "above" });
  return [...named, ...[arm, knuckle, left, right].map((at): Mark => ({ is: "dot", at }))];
}

function exhibit(show: Show, role: Role): Exhibit<State> {
  return {
    answers: async ({ wheel }) => [
      await askView(show.engine, role.truck.file, { steering_wheel_deg: wheel }, [kView]),
    ],
    display(): Display<State> {
      const wheel = new SteeringWheel(role.truck.name);
      let box: Box | undefined;
      const picture = new Picture({
        name: "Steering gear, arm, bars and road wheels, seen from behind and above",
        ratio: kRatio,
        marked: ["pitman_arm", "drag_link", "tie_rod"],
      });
      return {
        element: html("div", { class: "wheel-over" }, wheel.element, picture.element),
        show(state, [answer]) {
          wheel.show(state.wheel);
          const drawing = answer?.views[0];
          if (!answer || !drawing) return;
          box ??= boxAround([drawing], kSeen, kMargin_mm) ?? wholePaper(drawing, kRatio);
          picture.show(drawing, box, names(drawing), refusalNote(answer));
        },
      };
    },
    words({ wheel }, [answer]) {
      const steer = answer?.values?.mean_steer_deg;
      if (typeof steer !== "number") return "";
      return `Steering wheel ${wheelPlace(wheel)}: road wheels ${heading(steer)}.`;
    },
  };
}

export function steerChapter(show: Show, role: Role): Opening {
  const [right, left] = role.truck.steering ?? [-360, 360];
  const state = { wheel: left / 4 };
  const stage = new Stage(
    exhibit(show, role),
    { first: state, telling: state, wordsShown: true },
    show.reader,
  );
  const slider = new Slider({
    name: "Steering wheel",
    min: right,
    max: left,
    value: state.wheel,
    say: wheelPlace,
    leftIsPositive: true,
  });
  slider.onChange((wheel) => void stage.change({ wheel }));
  const play = new Play(slider, { play: "Play: turn it", stop: "Stop", step: "Next place" });
  return {
    element: chapter({
      id: "steer",
      kicker: "Why? 1",
      title: "What a steering wheel moves",
      says: [
        "Turn it: a gear swings an arm, the arm pushes the steering bar (in the trade: the drag link), the bar turns one road wheel. The tie rod takes the other along.",
        "Gear and arm hang on the frame, which goes up and down. The road wheels hang on the axle, which stays on the ground. The steering bar must reach from one to the other.",
      ],
      shows: [stage.element, controls(slider.element, play.button)],
      caption: castText(role),
    }),
    open: () => stage.open(),
  };
}
