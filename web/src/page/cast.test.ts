import { describe, expect, it } from "vitest";
import {
  type Cast,
  castOf,
  castText,
  kGuidedSteering,
  kLocator,
  kPlainPoints,
  type Role,
} from "./cast.ts";

type Points = ReadonlyMap<string, readonly [number, number, number]>;

function role(name: string, points: Points, wheel_deg: number | null, given = true): Role {
  const truck = {
    file: `${name}.toml`,
    name,
    heights: [0, 235],
    aligned: 0,
    travel: [-110, 90],
    lean: 4,
    steering: undefined,
    points,
  } as const;
  return { truck, given, wheel_deg, walk_mm: 0 };
}

const plain: Points = new Map(Object.values(kPlainPoints).map((name) => [name, [0, 0, 0]]));

function fold(pivotOff: number): Points {
  const points = new Map<string, readonly [number, number, number]>();
  for (const names of [kLocator, kGuidedSteering]) {
    points.set(names.pivot, [0, pivotOff, 0]);
    points.set(names.nearEnd, [0, 0, 600]);
    points.set(names.guideEnd, [0, 800, 0]);
    points.set(names.middle, [0, 400, 300]);
  }
  return points;
}

const examples: Cast = {
  differ: role("example differ", plain, 54, false),
  agree: role("example agree", plain, 4, false),
  guided: role("example guided", fold(0), 0, false),
};

describe("which truck shows which idea", () => {
  it("is a given one where it does what the idea says", () => {
    const cast = castOf([role("A", plain, -30), role("B", fold(0), 0)], examples);
    expect(cast.differ.truck.name).toBe("A");
    expect(cast.guided.truck.name).toBe("B");
    expect(cast.agree.truck.name).toBe("example agree");
  });

  it("is a made-up one where the given one does not do it", () => {
    const cast = castOf([role("A", plain, 3), role("B", plain, 7)], examples);
    expect(cast.agree.truck.name).toBe("A");
    expect(cast.differ.truck.name).toBe("example differ");
  });

  it("is a made-up one where the parts are not there, or nothing is known of them", () => {
    const cast = castOf([role("A", new Map(), 30), role("B", plain, null)], examples);
    expect(cast).toEqual(examples);
  });

  it("is no bar whose three lengths are unequal: the words would not be true of it", () => {
    expect(castOf([role("B", fold(5), 0)], examples).guided.truck.name).toBe("example guided");
  });

  it("is no bar on a rocker: nothing of it slides", () => {
    const onRocker = new Map([...fold(0), ["steer_rocker_pivot", [0, 800, -180]] as const]);
    expect(castOf([role("B", onRocker, 0)], examples).guided.truck.name).toBe("example guided");
  });

  it("is told", () => {
    expect(castText(role("A", plain, 30))).toMatch(/“A”, one of the two trucks above/);
    expect(castText(examples.differ)).toMatch(/made-up truck, “example differ”/);
  });
});
