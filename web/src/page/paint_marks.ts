// Marks as SVG over the engine's drawing. Sizes are those of the screen: a name stays readable however the picture is scaled.

import { svg } from "./dom.ts";
import type { Spot } from "./in_frame.ts";
import { between, type Mark, stepTowards, type Towards } from "./marks.ts";

export interface MarkScale {
  readonly paperHeight: number;
  /** The picture's edges [mm of paper]: names stay within them. */
  readonly left: number;
  readonly right: number;
  /** mm of paper to a pixel of the screen. */
  readonly pixel: number;
}

const kText_px = 13;
const kDot_px = 4;
const kTick_px = 6;
const kSquare_px = 14;
const kHead_px = 9;
const kGap_px = 9;

function flip(spot: Spot, scale: MarkScale): Spot {
  return [spot[0], scale.paperHeight - spot[1]];
}

function move(spots: readonly Spot[], scale: MarkScale): string {
  return `M${spots.map((spot) => flip(spot, scale).join(" ")).join("L")}`;
}

function path(kind: string, d: string): SVGElement {
  return svg("path", { class: `mark-${kind}`, d });
}

const kAnchors: Readonly<Record<Towards, readonly [string, number, number]>> = {
  left: ["end", -1, 0.35],
  right: ["start", 1, 0.35],
  above: ["middle", 0, -1],
  below: ["middle", 0, 1.9],
};

/** Near enough for a letter of these fonts, as a share of the size. */
const kLetter = 0.58;

/** Where a name may be anchored so that none of it is cut off. */
function within(x: number, text: string, anchor: string, scale: MarkScale): number {
  const width = kLetter * kText_px * text.length * scale.pixel;
  const before = { start: 0, middle: 0.5, end: 1 }[anchor] ?? 0;
  const least = scale.left + before * width;
  const most = scale.right - (1 - before) * width;
  return Math.max(least, Math.min(most, x));
}

function name(at: Spot, text: string, towards: Towards, scale: MarkScale): SVGElement {
  const [anchor, across, down] = kAnchors[towards];
  const [x, y] = flip(at, scale);
  const gap = kGap_px * scale.pixel;
  const drop = towards === "left" || towards === "right" ? kText_px * scale.pixel : gap;
  return svg(
    "text",
    {
      class: "mark-name",
      x: within(x + across * gap, text, anchor, scale),
      y: y + down * drop,
      "text-anchor": anchor,
      "font-size": kText_px * scale.pixel,
      "stroke-width": 3 * scale.pixel,
    },
    text,
  );
}

/** An arrow with its length over it; no head where there is no way to go. */
function way(from: Spot, to: Spot, text: string, scale: MarkScale): SVGElement {
  const head = Math.min(kHead_px * scale.pixel, Math.hypot(to[0] - from[0], to[1] - from[1]));
  const back = stepTowards(to, from, head);
  const across: Spot = [((to[1] - back[1]) * 4) / 9, (-(to[0] - back[0]) * 4) / 9];
  const wings: Spot[] = [
    [back[0] + across[0], back[1] + across[1]],
    to,
    [back[0] - across[0], back[1] - across[1]],
  ];
  return svg(
    "g",
    {},
    path("way", move([from, to], scale)),
    path("way", move(wings, scale)),
    name(between(from, to), text, "below", scale),
  );
}

/** The stroke across the middle of a length that says: this one is as long as the others with it. */
function equal(from: Spot, to: Spot, scale: MarkScale): SVGElement {
  const middle = between(from, to);
  const along = stepTowards(from, to, kTick_px * scale.pixel);
  const across: Spot = [-(along[1] - from[1]), along[0] - from[0]];
  const tick = (sign: number): Spot => [middle[0] + sign * across[0], middle[1] + sign * across[1]];
  return path("equal", move([tick(-1), tick(1)], scale));
}

function square(corner: Spot, one: Spot, two: Spot, scale: MarkScale): SVGElement {
  const size = kSquare_px * scale.pixel;
  const a = stepTowards(corner, one, size);
  const b = stepTowards(corner, two, size);
  return path("square", move([a, [a[0] + b[0] - corner[0], a[1] + b[1] - corner[1]], b], scale));
}

function paint(mark: Mark, scale: MarkScale): SVGElement {
  switch (mark.is) {
    case "dot":
    case "spot": {
      const [cx, cy] = flip(mark.at, scale);
      return svg("circle", { class: `mark-${mark.is}`, cx, cy, r: kDot_px * scale.pixel });
    }
    case "name":
      return name(mark.at, mark.text, mark.towards, scale);
    case "line":
      return path(mark.kind, move(mark.spots, scale));
    case "way":
      return way(mark.from, mark.to, mark.text, scale);
    case "circle": {
      const [cx, cy] = flip(mark.centre, scale);
      return svg("circle", { class: "mark-helper", cx, cy, r: mark.radius });
    }
    case "equal":
      return equal(mark.from, mark.to, scale);
    case "square":
      return square(mark.corner, mark.one, mark.two, scale);
  }
}

export function paintMarks(group: SVGGElement, marks: readonly Mark[], scale: MarkScale): void {
  group.replaceChildren(...marks.map((mark) => paint(mark, scale)));
}
