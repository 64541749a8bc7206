import { expect, it } from "vitest";
import { angle, axlePlace, fineAngle, heading, length, list, wheelPlace } from "./words.ts";

it("tells an angle as a person would", () => {
  expect(angle(0.04)).toBe("0 degrees");
  expect(angle(1)).toBe("1 degree");
  expect(angle(-4.17)).toBe("4.2 degrees");
  expect(angle(9.96)).toBe("10 degrees");
  expect(angle(53.75)).toBe("54 degrees");
});

it("counts whole turns", () => {
  expect(angle(359.4)).toBe("359 degrees");
  expect(angle(359.6)).toBe("1 turn");
  expect(angle(380)).toBe("1 turn and 20 degrees");
  expect(angle(-721)).toBe("2 turns and 1 degree");
});

it("keeps a hundredth of what bumps and leans steer", () => {
  expect(fineAngle(0.0814)).toBe("0.08 degrees");
  expect(fineAngle(-0.5)).toBe("0.5 degrees");
  expect(fineAngle(2.34)).toBe("2.3 degrees");
});

it("says which side, and nothing of a side where there is none", () => {
  expect(wheelPlace(53.75)).toBe("54 degrees to the left");
  expect(wheelPlace(-0.3)).toBe("0.3 degrees to the right");
  expect(wheelPlace(-0.01)).toBe("centred");
  expect(heading(-6)).toBe("6 degrees to the right");
  expect(heading(9e-13)).toBe("straight ahead");
});

it("tells lengths in the reader's unit", () => {
  expect(length(61.26, "mm")).toBe("61 mm");
  expect(length(61.26, "inch")).toBe("2.4 in");
  expect(length(5.72, "mm")).toBe("5.7 mm");
  expect(length(5.72, "inch")).toBe("0.23 in");
  expect(axlePlace(61.26, "mm")).toBe("61 mm to the left");
  expect(axlePlace(-2.2e-13, "inch")).toBe("in the middle");
});

it("joins a list", () => {
  expect(list([])).toBe("");
  expect(list(["a"])).toBe("a");
  expect(list(["a", "b", "c"])).toBe("a, b and c");
});
