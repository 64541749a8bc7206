// Raise the truck on one plain bar: its end swings on an arc, and takes the axle along.

import type { Drawing, Place3 } from "../../draw/drawing.ts";
import { askView, fromBehind } from "../ask.ts";
import type { Box } from "../camera.ts";
import { castText, kPlainPoints, type Role } from "../cast.ts";
import { chapter, controls } from "../chapter.ts";
import { heightSlider } from "../height_slider.ts";
import type { Spot } from "../in_frame.ts";
import { axleMiddle, type Mark, onFrame, spotOf } from "../marks.ts";
import { Picture } from "../picture.ts";
import { refusalNote } from "../say/refusal.ts";
import { axleMoved } from "../say/story.ts";
import { kUnseenWay_mm, length } from "../say/words.ts";
import { type Display, type Exhibit, Stage } from "../stage.ts";
import type { Show } from "../trucks.ts";
import type { Opening } from "./opening.ts";
import { boxOver, wayOver } from "./single.ts";

interface State {
  readonly height: number;
}

const kRatio = 1.35;
const kView = fromBehind(kRatio);
const kMargin_mm = 420;

/** What does not change with the height: the bar end's way in the frame, where the axle's middle was, where to look. */
interface Scene {
  readonly way: readonly Place3[];
  readonly middle: Spot | undefined;
  readonly box: Box | undefined;
}

function marks(scene: Scene, drawing: Drawing, walked: string): Mark[] {
  const frame = spotOf(drawing, kPlainPoints.barOnFrame);
  const axle = spotOf(drawing, kPlainPoints.barOnAxle);
  const middle = axleMiddle(drawing);
  if (!frame || !axle) return [];
  const found: Mark[] = [
    { is: "line", kind: "arc", spots: onFrame(drawing, scene.way) },
    { is: "line", kind: "bar", spots: [frame, axle] },
    { is: "dot", at: frame },
    { is: "dot", at: axle },
    { is: "name", at: frame, text: "hinge on the frame", towards: "above" },
  ];
  if (middle && scene.middle && walked !== "") {
    const rise = 260 * drawing.scale;
    const start = scene.middle;
    found.push(
      {
        is: "line",
        kind: "helper",
        spots: [
          [start[0], start[1] - rise],
          [start[0], start[1] + 2 * rise],
        ],
      },
      {
        is: "way",
        from: [start[0], start[1] - rise],
        to: [middle[0], start[1] - rise],
        text: walked,
      },
    );
  }
  return found;
}

class OneBar implements Exhibit<State> {
  private scene: Scene = { way: [], middle: undefined, box: undefined };

  constructor(
    private readonly show: Show,
    private readonly role: Role,
  ) {}

  async prepare(): Promise<void> {
    const { show, role } = this;
    const { barOnFrame, barOnAxle } = kPlainPoints;
    const height_mm = role.truck.aligned;
    const aligned = await askView(show.engine, role.truck.file, { height_mm }, [kView]);
    const [drawing] = aligned.views;
    this.scene = {
      way: await wayOver(show, role.truck, barOnAxle, {}),
      middle: drawing && axleMiddle(drawing),
      box: await boxOver(show, role.truck, kView, [barOnFrame, barOnAxle], kMargin_mm),
    };
  }

  async answers({ height }: State) {
    return [await askView(this.show.engine, this.role.truck.file, { height_mm: height }, [kView])];
  }

  display(): Display<State> {
    const picture = new Picture({
      name: "Axle and the bar that holds it, seen from behind",
      ratio: kRatio,
      marked: ["track_bar"],
    });
    return {
      element: picture.element,
      show: (_, [answer]) => {
        const drawing = answer?.views[0];
        const { box } = this.scene;
        if (!answer || !drawing || !box) return;
        const walk = answer.values?.axle_walk_side_mm;
        const moved = typeof walk === "number" && Math.abs(walk) >= kUnseenWay_mm;
        const walked = moved ? length(walk, this.show.reader.unit) : "";
        picture.show(drawing, box, marks(this.scene, drawing, walked), refusalNote(answer));
      },
    };
  }

  words({ height }: State, [answer]: Parameters<Exhibit<State>["words"]>[1]): string {
    const walk = answer?.values?.axle_walk_side_mm;
    if (typeof walk !== "number") return "";
    return axleMoved(height - this.role.truck.aligned, walk, this.show.reader.unit);
  }
}

export function oneBarChapter(show: Show, role: Role): Opening {
  const [, top] = role.truck.heights;
  const exhibit = new OneBar(show, role);
  const stage = new Stage(
    exhibit,
    { first: { height: top }, telling: { height: top }, wordsShown: true },
    show.reader,
  );
  const { elements } = heightSlider(
    show.reader,
    role.truck.heights,
    (height) => void stage.change({ height }),
    top,
  );
  return {
    element: chapter({
      id: "one-bar",
      kicker: "Why? 2",
      title: "One bar holds the axle",
      says: [
        "Springs let the axle go up and down. One bar, from the frame to the axle, keeps it from sliding sideways (in the trade: the track bar).",
        "A bar cannot stretch. Like a gate on its hinge, its end swings on an arc. So when the frame rises, the bar pulls the axle to one side.",
      ],
      shows: [stage.element, controls(...elements)],
      caption: castText(role),
    }),
    async open() {
      await exhibit.prepare();
      await stage.open();
    },
  };
}
