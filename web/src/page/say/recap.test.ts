import { describe, expect, it } from "vitest";
import type { Pair, Worst } from "./pair.ts";
import { equalAnswer, whyAnswer } from "./recap.ts";

function pair(first: Worst, second: Worst, alike = false): Pair {
  return { names: ["A", "B"], worst: [first, second], alike };
}

describe("why a wheel turns", () => {
  it("gives the reason that fits the truck whose wheel stays", () => {
    const straight = whyAnswer({ wheel: pair(54, 0), walk: pair(61, 0) });
    expect(straight).toMatch(/In “A” the two ways part: 54 degrees/);
    expect(straight).toMatch(/In “B” both ends go straight up and down/);
    const swinging = whyAnswer({ wheel: pair(54, 0.2), walk: pair(61, 52) });
    expect(swinging).toMatch(/In “B” both bars swing alike/);
  });

  it("does not make one better where none is", () => {
    expect(whyAnswer({ wheel: pair(0, 0), walk: pair(0, 0) })).toMatch(/neither turns/);
    expect(whyAnswer({ wheel: pair(20, 20, true), walk: pair(0, 0) })).toMatch(/by the same/);
    expect(whyAnswer({ wheel: pair(20, 10), walk: pair(0, 0) })).toMatch(/less with “B”/);
    expect(whyAnswer({ wheel: pair(null, 10), walk: pair(null, 0) })).toMatch(/“A” cannot reach/);
  });
});

describe("when plain bars are as good", () => {
  it("tells it with the numbers of a truck that has them", () => {
    const told = equalAnswer({ name: "P", wheel_deg: 4.17, walk_mm: 52.3 }, "0 mm", "mm");
    expect(told).toMatch(
      /in “P” it stays within 4\.2 degrees from bottom to top\. The axle still moves 52 mm/,
    );
  });

  it("tells no number of a truck that cannot be raised", () => {
    const told = equalAnswer({ name: "P", wheel_deg: null, walk_mm: null }, "0 mm", "mm");
    expect(told).toMatch(/side by side\.$/);
  });
});
