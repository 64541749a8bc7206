// Holds two answers to the same question together.

/**
 * Places and lengths [mm]: 1e-9 m, as far as a pose is closed (engine/solve/follower.h). That is a hundred times what is
 * seen, since the same sources run in the same order; what is left is the last bit of the two C libraries' sin and cos.
 */
export const kPlace_mm = 1e-6;

/** Angles, rates, ratios and forces, of the larger of the two or of 1: by the same reason. */
export const kOther = 1e-9;

/** Drawings are written to a hundredth of a mm and a tenth of a degree: rounding may fall on either side. */
const kDrawn_mm = 0.01 + 1e-6;
const kDrawn_deg = 0.1 + 1e-6;

/** What the solver says of its own rounding [m]: noise on both sides, so only small. */
const kResidual_m = 1e-9;
const ownRounding = new Set(["residual_m", "last_step_m", "set_aside_miss_m"]);

type Known = { readonly [key: string]: unknown };

/** Each difference in words; none where the answers agree. */
export function differences(one: unknown, other: unknown, place = "answer", key = ""): string[] {
  if (same(one, other, key)) return [];
  if (!isKnown(one) || !isKnown(other)) return [`${place}: ${shown(one)} or ${shown(other)}`];
  const keys = new Set([...Object.keys(one), ...Object.keys(other)]);
  return [...keys].flatMap((inner) =>
    differences(
      turnOrValue(one, inner),
      turnOrValue(other, inner),
      `${place}.${inner}`,
      Array.isArray(one) ? key : inner,
    ),
  );
}

function same(one: unknown, other: unknown, key: string): boolean {
  if (key === "arc") return sameArc(one, other);
  if (typeof one !== "number" || typeof other !== "number") return one === other;
  if (ownRounding.has(key)) return Math.abs(one) < kResidual_m && Math.abs(other) < kResidual_m;
  if (drawn.has(key)) return Math.abs(one - other) <= kDrawn_mm;
  if (key.endsWith("_mm")) return Math.abs(one - other) <= kPlace_mm;
  return Math.abs(one - other) <= kOther * Math.max(1, Math.abs(one), Math.abs(other));
}

/** Coordinates of strokes, silhouettes and texts. */
const drawn = new Set(["line", "area", "at"]);

/** From -90 to 90 degrees is the same arc as from 270 to 450. */
function sameArc(one: unknown, other: unknown): boolean {
  if (!isArc(one) || !isArc(other)) return false;
  const apart = one.map((number, place) => number - (other[place] ?? Number.NaN));
  const [x, y, radius, from, to] = apart.map(Math.abs) as typeof one;
  const turned = Math.abs(from - 360 * Math.round(from / 360));
  const longer = Math.abs(to - from);
  return (
    [x, y, radius].every((d) => d <= kDrawn_mm) && [turned, longer].every((d) => d <= kDrawn_deg)
  );
}

function isArc(value: unknown): value is [number, number, number, number, number] {
  return Array.isArray(value) && value.length === 5 && value.every(Number.isFinite);
}

/**
 * The turn of a body that is as good as unturned is about no axis in particular: what is told for sure is the axis
 * times the angle.
 */
function turnOrValue(holder: Known, key: string): unknown {
  const value = holder[key];
  const angle = holder.turn_deg;
  if (key !== "turn_axis" || typeof angle !== "number" || !Array.isArray(value)) return value;
  return value.map((coordinate) => coordinate * angle);
}

function isKnown(value: unknown): value is Known {
  return typeof value === "object" && value !== null;
}

function shown(value: unknown): string {
  return JSON.stringify(value)?.slice(0, 200) ?? "nothing";
}
