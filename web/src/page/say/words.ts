// Angles and lengths as a person says them.

import { fromMm, type LengthUnit } from "../../units";

/** Below this nothing is said to have turned or moved: what is printed would read 0.0. */
export const kNothing = 0.05;

/** Below these a person sees nothing: the wheel is told as centred, the axle as staying, with the small number beside it. */
export const kUnseenTurn_deg = 0.5;
export const kUnseenWay_mm = 1;

function trimmed(value: number, digits: number): string {
  const text = Math.abs(value).toFixed(digits);
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}

function degrees(amount: string): string {
  return `${amount} ${amount === "1" ? "degree" : "degrees"}`;
}

/** "4.2 degrees", "54 degrees", "1 turn and 20 degrees"; without a side. */
export function angle(deg: number): string {
  const size = Math.abs(deg);
  if (size < 9.95) return degrees(trimmed(size, 1));
  const whole = Math.round(size);
  if (whole < 360) return degrees(String(whole));
  const turns = Math.floor(whole / 360);
  const rest = whole - 360 * turns;
  const turnsText = turns === 1 ? "1 turn" : `${turns} turns`;
  return rest === 0 ? turnsText : `${turnsText} and ${degrees(String(rest))}`;
}

/** A small angle, to a hundredth: what bumps and leans steer. */
export function fineAngle(deg: number): string {
  return Math.abs(deg) < 0.995 ? degrees(trimmed(deg, 2)) : angle(deg);
}

export function side(value: number): string {
  return value > 0 ? "to the left" : "to the right";
}

/** "18 degrees to the left"; nothing to tell is "centred". */
export function wheelPlace(deg: number): string {
  return Math.abs(deg) < kNothing ? "centred" : `${angle(deg)} ${side(deg)}`;
}

/** "straight ahead", "6 degrees to the left". */
export function heading(deg: number): string {
  return Math.abs(deg) < kNothing ? "straight ahead" : `${angle(deg)} ${side(deg)}`;
}

/** "61 mm", "2.4 in"; without a side. */
export function length(mm: number, unit: LengthUnit): string {
  const value = Math.abs(fromMm(mm, unit));
  if (unit === "mm") return `${trimmed(value, value < 9.95 ? 1 : 0)} mm`;
  return `${trimmed(value, value < 0.995 ? 2 : 1)} in`;
}

/** "61 mm to the left"; nothing to tell is "in the middle". */
export function axlePlace(mm: number, unit: LengthUnit): string {
  return Math.abs(mm) < kNothing ? "in the middle" : `${length(mm, unit)} ${side(mm)}`;
}

/** First letter large, for the start of a sentence. */
export function sentence(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** "a", "a and b", "a, b and c". */
export function list(items: readonly string[]): string {
  if (items.length < 2) return items.join("");
  return `${items.slice(0, -1).join(", ")} and ${items[items.length - 1]}`;
}
