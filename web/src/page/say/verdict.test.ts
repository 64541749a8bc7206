import { describe, expect, it } from "vitest";
import type { Pair, Worst } from "./pair.ts";
import { heldVerdict, walkVerdict, wheelTurned, wheelVerdict } from "./verdict.ts";

function pair(first: Worst, second: Worst, alike = false): Pair {
  return { names: ["A, old", "B"], worst: [first, second], alike };
}

describe("the steering wheel over the heights", () => {
  it("says who turns and who stays, whichever side they stand on", () => {
    expect(wheelVerdict(pair(53.75, 0))).toBe(
      "With “A, old” the steering wheel turns by up to 54 degrees to the left. With “B” it stays centred.",
    );
    expect(wheelVerdict(pair(0.2, -12))).toBe(
      "With “B” the steering wheel turns by up to 12 degrees to the right. With “A, old” it stays centred.",
    );
  });

  it("does not say that a wheel turns where none does", () => {
    expect(wheelVerdict(pair(0.1, -0.2))).not.toMatch(/turn/);
    expect(wheelVerdict(pair(0.1, -0.2, true))).not.toMatch(/turn/);
  });

  it("does not call one better where both are alike", () => {
    expect(wheelVerdict(pair(8, 8.01, true))).toBe(
      "From bottom to top both steering wheels turn alike, by up to 8 degrees to the left.",
    );
  });

  it("names both where both turn, the worse one first", () => {
    expect(wheelVerdict(pair(4, 53))).toMatch(
      /53 degrees to the left with “B”.*4 degrees.*“A, old”/,
    );
    expect(wheelVerdict(pair(53, 4))).toMatch(
      /53 degrees to the left with “A, old”.*4 degrees.*“B”/,
    );
  });

  it("gives no number where a height cannot be had", () => {
    expect(wheelVerdict(pair(null, 4))).toBe(
      "“A, old” cannot reach every height asked for, so there is nothing to set side by side here.",
    );
    expect(wheelVerdict(pair(4, null))).toMatch(/^“B” cannot/);
    expect(wheelVerdict(pair(null, null))).toMatch(/^“A, old” and “B” cannot/);
    expect(wheelVerdict(pair(null, null))).not.toMatch(/\d/);
  });
});

describe("the axle's way to the side", () => {
  it("has the same cases", () => {
    expect(walkVerdict(pair(61.26, 0), "mm")).toBe(
      "The axle moves sideways by up to 61 mm to the left with “A, old”. With “B” it stays in the middle.",
    );
    expect(walkVerdict(pair(0.4, 0), "mm")).toBe("Neither axle moves sideways.");
    expect(walkVerdict(pair(60, 60, true), "inch")).toBe(
      "Both axles move sideways alike, by up to 2.4 in to the left.",
    );
    expect(walkVerdict(pair(50, 60), "mm")).toMatch(/60 mm to the left with “B”/);
  });
});

describe("with the steering wheel held", () => {
  it("says what a bump steers", () => {
    expect(heldVerdict(pair(0.975, 3.6e-15), "bump of 25 mm", 1)).toBe(
      "Hold the steering wheel still, and a bump of 25 mm steers the road wheels by up to 0.97 degrees with “A, old”. It does not steer “B”.",
    );
  });

  it("tells both where both steer", () => {
    expect(heldVerdict(pair(-0.33, -0.081), "lean of one degree", 1)).toMatch(
      /0\.33 degrees with “A, old”, and by up to 0\.08 degrees with “B”/,
    );
  });

  it("says that neither steers only where neither does", () => {
    expect(heldVerdict(pair(0.001, -0.002), "bump of 25 mm", 1)).toMatch(/steers neither/);
    expect(heldVerdict(pair(0.5, 0.5, true), "bump of 25 mm", 1)).toMatch(
      /both alike: 0\.5 degrees/,
    );
  });
});

describe("from one pose to another", () => {
  it("tells the way between, not the place", () => {
    expect(wheelTurned(54, 30)).toBe("The wheel turns 24 degrees to the right.");
    expect(wheelTurned(54, 54.2)).toBe("The wheel stays where it was.");
  });
});
