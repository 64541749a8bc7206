// The steering wheel as the driver sees it: rim, hub, three spokes, a mark at the top, and beside the rim a notch that stays
// where the mark stands when the wheel is centred.

import { svg } from "./dom.ts";
import { wheelPlace } from "./say/words.ts";

const kRim = 46;
const kNotch = 56;

function onCircle(radius: number, deg: number): string {
  const angle = (deg * Math.PI) / 180;
  return `${-radius * Math.sin(angle)} ${-radius * Math.cos(angle)}`;
}

/** The band on a rim about its top. */
function markAt(radius: number): string {
  return `M${onCircle(radius, 9)}A${radius} ${radius} 0 0 1 ${onCircle(radius, -9)}`;
}

/** From where the mark stood to where it stands, the way the wheel was turned; whole turns show as a whole circle. */
export function turnedArc(deg: number, before_deg = 0): string {
  const turned = deg - before_deg;
  const size = Math.min(Math.abs(turned), 359.9);
  if (size < 0.5) return "";
  const end = before_deg + Math.sign(turned) * size;
  const flags = `${size > 180 ? 1 : 0} ${turned > 0 ? 0 : 1}`;
  return `M${onCircle(kNotch, before_deg)}A${kNotch} ${kNotch} 0 ${flags} ${onCircle(kNotch, end)}`;
}

export class SteeringWheel {
  readonly element = svg("svg", {
    class: "steering-wheel",
    viewBox: "-61 -66 122 122",
    role: "img",
  });
  private readonly turning = svg("g", { class: "turning" });
  private readonly before = svg("path", { class: "before", d: markAt(kRim) });
  private readonly arc = svg("path", { class: "turned" });

  constructor(private readonly name: string) {
    this.turning.append(
      svg("circle", { class: "rim", r: kRim }),
      svg("path", { class: "spoke", d: `M-${kRim} 0H${kRim}M0 0V${kRim}` }),
      svg("circle", { class: "hub", r: 12 }),
      svg("path", { class: "mark", d: markAt(kRim) }),
    );
    this.element.append(
      svg("path", { class: "notch", d: `M0 -${kNotch - 3}l-5 -8h10z` }),
      this.arc,
      this.turning,
      this.before,
    );
  }

  /** `deg` from centred, left positive; nothing where the pose cannot be had. `before_deg` is where it stood. */
  show(deg: number | undefined, before_deg?: number): void {
    this.element.classList.toggle("unknown", deg === undefined);
    this.turning.setAttribute("transform", `rotate(${-(deg ?? 0)})`);
    this.arc.setAttribute("d", deg === undefined ? "" : turnedArc(deg, before_deg));
    this.before.setAttribute("visibility", before_deg === undefined ? "hidden" : "visible");
    this.before.setAttribute("transform", `rotate(${-(before_deg ?? 0)})`);
    const words = deg === undefined ? "cannot be told here" : wheelPlace(deg);
    this.element.setAttribute("aria-label", `Steering wheel with ${this.name}: ${words}`);
  }
}
