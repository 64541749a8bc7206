// One of two trucks side by side: its name, its steering wheel, its picture, and what both say in words.

import type { Drawing } from "../draw/drawing.ts";
import type { ViewAnswer, ViewWanted } from "../engine.ts";
import { fromAbove, fromBehind } from "./ask.ts";
import { type Box, onTheRoad, wholePaper } from "./camera.ts";
import { html, setText } from "./dom.ts";
import { axleMiddle, type Mark } from "./marks.ts";
import { Picture } from "./picture.ts";
import { refusalNote } from "./say/refusal.ts";
import { sentence, wheelPlace } from "./say/words.ts";
import { SteeringWheel } from "./steering_wheel.ts";
import type { Show } from "./trucks.ts";

/** How both trucks are looked at. */
export interface ColumnLook {
  readonly pictureName: string;
  readonly wanted: ViewWanted;
  readonly ratio: number;
  readonly box: (drawing: Drawing, ratio: number, wider: number) => Box;
  readonly withBody: boolean;
}

const kBehindRatio = 1.08;
const kAboveRatio = 1.15;

export const kFromBehind: ColumnLook = {
  pictureName: "Truck seen from behind",
  wanted: fromBehind(kBehindRatio),
  ratio: kBehindRatio,
  box: onTheRoad,
  withBody: true,
};

export const kFromAbove: ColumnLook = {
  pictureName: "Front end seen from above",
  wanted: fromAbove(kAboveRatio),
  ratio: kAboveRatio,
  box: wholePaper,
  withBody: false,
};

/** How far above the axle the middle line goes. */
const kMiddle_mm = 500;

/** What is said under the picture, and where the steering wheel stood before. */
export interface ColumnSays {
  readonly words: string;
  readonly before_deg?: number;
}

/** The truck's middle, and where the axle's is: what shows that the axle moves sideways. */
function middleMarks(drawing: Drawing): Mark[] {
  const axle = axleMiddle(drawing);
  const [middle, road] = drawing.origin_mm;
  if (!axle) return [];
  const top = axle[1] + kMiddle_mm * drawing.scale;
  return [
    {
      is: "line",
      kind: "helper",
      spots: [
        [middle, road],
        [middle, top],
      ],
    },
    { is: "spot", at: axle },
  ];
}

export class Column {
  readonly element: HTMLElement;
  private readonly wheel: SteeringWheel;
  private readonly wheelWords = html("p", { class: "wheel-words" });
  private readonly picture: Picture;
  private readonly pictureWords = html("p", { class: "picture-words" });

  constructor(
    name: string,
    private readonly look: ColumnLook,
  ) {
    const { pictureName, ratio, withBody } = look;
    this.wheel = new SteeringWheel(name);
    this.picture = new Picture({ name: `${pictureName}, ${name}`, ratio, withBody });
    this.element = html(
      "div",
      { class: "column" },
      html("p", { class: "truck-name" }, name),
      this.wheel.element,
      this.wheelWords,
      this.picture.element,
      this.pictureWords,
    );
  }

  /** `wider`: how much wider than its paper the picture is to be. */
  show(answer: ViewAnswer, { words, before_deg }: ColumnSays, wider: number): void {
    const turned = answer.values?.steering_wheel_off_centre_deg ?? undefined;
    this.wheel.show(turned, before_deg);
    setText(this.wheelWords, turned === undefined ? "Not to be had" : sentence(wheelPlace(turned)));
    const drawing = answer.views[0];
    if (drawing) {
      const box = this.look.box(drawing, this.look.ratio, wider);
      const marks = this.look.withBody ? middleMarks(drawing) : [];
      this.picture.show(drawing, box, marks, refusalNote(answer));
    }
    setText(this.pictureWords, answer.values ? words : "");
  }
}

/** The two trucks of the page. */
export class ColumnPair {
  readonly element: HTMLElement;
  private readonly columns: readonly Column[];

  constructor(show: Show, look: ColumnLook) {
    this.columns = show.pair.map(({ name }) => new Column(name, look));
    this.element = html("div", { class: "pair" }, ...this.columns.map((column) => column.element));
  }

  show(
    answers: readonly ViewAnswer[],
    says: (answer: ViewAnswer, place: number) => ColumnSays,
  ): void {
    const scales = answers.map(({ views }) => views[0]?.scale ?? Number.POSITIVE_INFINITY);
    const smallest = Math.min(...scales);
    this.columns.forEach((column, place) => {
      const answer = answers[place];
      if (answer) column.show(answer, says(answer, place), (scales[place] ?? smallest) / smallest);
    });
  }
}
