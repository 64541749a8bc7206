// Where the engine cannot run: the pictures that the program recorded when it made the page, and, for the ideas, two figures
// that are always there.

import guidedBar from "../../../docs/figures/guided-bar.svg?raw";
import plainBars from "../../../docs/figures/plain-bars.svg?raw";
import type { LengthUnit } from "../units.ts";
import { chapter } from "./chapter.ts";
import { html } from "./dom.ts";
import type { PageData, RecordedPicture } from "./page_data.ts";
import { length } from "./say/words.ts";

/** As an image: what a picture holds is drawn and never run. */
function image(svgText: string, words: string): HTMLElement {
  const src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svgText)}`;
  return html("img", { src, alt: words, class: "recorded" });
}

function fileName(path: string): string {
  return path.replace(/^.*\//, "").replace(/\.toml$/, "");
}

function figure(picture: RecordedPicture, truck: string, unit: LengthUnit): HTMLElement {
  const place = `${fileName(truck)} at height ${length(picture.height_mm, unit)}`;
  const words = picture.words ? `${place}. ${picture.words}` : place;
  return html("figure", {}, image(picture.svg, words), html("figcaption", {}, words));
}

export function recordedPictures(data: PageData): HTMLElement {
  const lowestFirst = [...data.pictures].sort((a, b) => a.height_mm - b.height_mm);
  const columns = data.trucks.map((truck, place) =>
    html(
      "div",
      { class: "column" },
      html("p", { class: "truck-name" }, fileName(truck)),
      ...lowestFirst
        .filter((picture) => picture.truck === place)
        .map((picture) => figure(picture, truck, data.units)),
    ),
  );
  const none = html("p", {}, "No pictures were recorded in this page.");
  return data.pictures.length === 0 ? none : html("div", { class: "pair" }, ...columns);
}

export function recordedIdeas(): HTMLElement[] {
  return [
    chapter({
      id: "plain",
      title: "Two plain bars",
      says: [
        "One bar holds the axle sideways, one steers. A bar cannot stretch: its end swings on an arc. When the frame rises, the axle is pulled to one side.",
        "Where both bars are equally long and lie side by side, they swing alike: the axle moves and the steering wheel stays. Where they differ, the steering wheel turns, or the truck steers itself.",
      ],
      shows: [image(plainBars, "A track bar and a drag link swing on arcs")],
    }),
    chapter({
      id: "guided",
      title: "A bar that folds",
      says: [
        "From the middle M, three lengths are equal: to both ends of the long bar, and to the pivot. So the corner at the pivot is always square, and the end B goes straight up and down. Nothing is pulled to the side.",
      ],
      shows: [
        image(guidedBar, "A long bar, a half bar and a guide hold the end B in a straight line"),
      ],
    }),
  ];
}
