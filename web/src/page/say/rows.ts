// Rows of the comparison in words for somebody who never saw an axle. A row that is not listed keeps the engine's own words.

const kPlain: Readonly<Record<string, string>> = {
  steering_wheel_off_centre_deg:
    "How far the steering wheel turns by itself, the truck going straight",
  bump_steer_deg_per_25mm: "How far a bump steers the road wheels, the steering wheel held still",
  lean_steer_deg_per_deg: "How far a lean steers the road wheels, the steering wheel held still",
  axle_walk_side_mm: "How far the axle moves sideways",
  axle_walk_forward_mm: "How far the axle moves forward or back",
  caster_left_deg:
    "How much the pivots that the road wheels turn on tip back: the steering gets heavier or lighter",
  toe_deg: "How much the road wheels turn in towards each other",
  pinion_angle_deg: "How much the axle tips: the drive shaft’s joint feels it",
  roll_centre_height_mm: "How much the point moves that the truck leans about",
  tilt_deg: "How far the joint that swivels most must swivel",
};

/** The engine tells some rows twice: standing level over the heights, and in the worst of everything. */
const kWholeGrid = "over the whole grid";

export function plainWords({ name, words }: { name: string; words: string }): string | undefined {
  const plain = kPlain[name];
  if (plain === undefined || !words.includes(kWholeGrid)) return plain;
  return `${plain}: in the worst of all heights, bumps, leans and turns together`;
}
