import { expect, it } from "vitest";
import type { ViewAnswer } from "../engine.ts";
import { poseWords } from "./announce.ts";

const view = {
  complete: true,
  story: ["Mine has no pose at height 235 mm: drag link and left knuckle run straight."],
  drawn: { height_mm: 120 },
  drawn_text: "at height 198 mm, going straight",
  quantities: [
    {
      name: "steering_wheel_off_centre_deg",
      words: "steering wheel off centre",
      unit: "deg",
      positive: "to the left",
      negative: "to the right",
    },
  ],
  values: { steering_wheel_off_centre_deg: 9.5 },
} as unknown as ViewAnswer;

it("tells height and what the truck is judged by", () => {
  expect(poseWords(view, "mm")).toBe("Height 120.0 mm: steering wheel off centre 9.50 deg left.");
});

it("tells in the engine's words that a pose cannot be had, and what is drawn", () => {
  expect(poseWords({ ...view, complete: false }, "mm")).toBe(
    "Mine has no pose at height 235 mm: drag link and left knuckle run straight. " +
      "Drawn is the last pose reached on the way there: at height 198 mm, going straight.",
  );
});
