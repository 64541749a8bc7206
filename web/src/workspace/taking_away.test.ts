import { expect, it } from "vitest";
import { fileName } from "./taking_away.ts";

it("a file is named by truck and contents, in letters that every system takes", () => {
  expect(fileName("Plain bars, mismatched", "Front view", "svg")).toBe(
    "plain-bars-mismatched-front-view.svg",
  );
});
