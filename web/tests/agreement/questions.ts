// The questions that the engine in the browser and the native one are held together on: every kind, on every example.

import type { Question } from "../../src/engine.ts";

/** Heights, travel, lean and each way to steer; the last one is beyond what any example reaches. */
const poses = [
  {},
  { height_mm: 235, travel_mm: -110 },
  { height_mm: 140, travel_left_mm: 30, lean_deg: 2, steering_wheel_deg: 150 },
  { height_mm: 60, rear_height_mm: 40, travel_right_mm: -20, pitman_deg: -10 },
  { height_mm: 200, lean_deg: -3, road_wheels_deg: 12 },
  { height_mm: 235, travel_mm: 45, held: true },
  { height_mm: 2000 },
] as const;

const view = {
  ask: "view",
  heights: 11,
  views: [
    { view: "front", paper_mm: [297, 210], hidden: true, beside_height_mm: 0 },
    { view: "side", paper_mm: [297, 210] },
    { view: "top", paper_mm: [210, 297], hidden: true },
    { view: "pictorial", paper_mm: [297, 210], turn_deg: 30, tilt_deg: 20 },
  ],
} as const;

export function questionsAbout(file: string): Question[] {
  return [
    { ask: "check", file, expand: true },
    ...poses.map((inputs) => ({ ask: "pose", file, ...inputs }) as const),
    { ask: "sweep", file, heights: 5 },
    { ask: "sweep", file, heights: 3, units: "inch", quantity: "axle_walk_side" },
    { ask: "setup", file, height_mm: 120, heights: 3 },
    { ...view, file },
    { ...view, file, height_mm: 117.5, lean_deg: 3, steering_wheel_deg: -200, units: "inch" },
    { ...view, file, height_mm: 2000 },
    { ask: "edit", file, set: ["points.track_bar_axle.z=+10mm"] },
    { ask: "sheet", file, paper: "A3", height_mm: 100, beside_height_mm: 0 },
  ];
}

export const questionsBesides: Question[] = [
  {
    ask: "compare",
    files: ["trucks/plain-mismatched.toml", "trucks/plain-parallel.toml", "trucks/guided.toml"],
    heights: 5,
  },
  ...(
    [
      "plain",
      "plain-tie-rod",
      "push-pull",
      "inverted-y",
      "relay",
      "four-bar",
      "half-converted",
      "guided",
      "rocker-guided",
    ] as const
  ).flatMap((layout): Question[] => [
    { ask: "start", layout },
    { ask: "start", layout, units: "inch", example_numbers: true },
  ]),
  { ask: "check", file: "trucks/none.toml" },
  { ask: "pose", file: "trucks/guided.toml", set: ["points.no_such_point.x=1mm", "nonsense"] },
  { ask: "pose", file: "trucks/guided.toml", steering_wheel_deg: 1, held: true },
];
