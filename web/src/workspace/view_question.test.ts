import { describe, expect, it } from "vitest";
import { kLevelPose, kStart, type State } from "./state.ts";
import { poseAt, poseInputs, viewQuestion } from "./view_question.ts";

const state: State = { ...kStart, file: "trucks/guided.toml" };

describe("the pose as inputs", () => {
  it("names one way to steer", () => {
    expect(poseInputs(kLevelPose)).toMatchObject({ height_mm: 0, straight_ahead: true });
    const turned = poseInputs({
      ...kLevelPose,
      steering: { by: "steering_wheel_deg", angle_deg: 90 },
    });
    expect(turned).toMatchObject({ steering_wheel_deg: 90 });
    expect(turned).not.toHaveProperty("straight_ahead");
    expect(turned).not.toHaveProperty("steering");
  });
});

describe("a place in an answer", () => {
  const where = {
    height_mm: 235,
    rear_height_mm: 0,
    travel_mm: -110,
    travel_left_mm: 0,
    travel_right_mm: 0,
    lean_deg: 4,
  };

  it("is gone to with its way of steering", () => {
    const pose = poseAt({ ...where, steer_by: "steering_wheel", steer_deg: 523 });
    expect(poseInputs(pose)).toEqual({ ...where, steering_wheel_deg: 523 });
    expect(poseInputs(poseAt({ ...where, steer_by: "held" }))).toEqual({ ...where, held: true });
  });
});

describe("the question", () => {
  it("is none while no truck is open", () => {
    expect(viewQuestion(kStart, [], true)).toBeUndefined();
  });

  it("makes what is tried after reading, as a place whatever its sign", () => {
    const trial = new Map([["points.a.x", "-12.5 mm"]]);
    expect(viewQuestion({ ...state, trial }, [], true)).toMatchObject({
      set: ["points.a.x==-12.5 mm"],
      heights: 101,
    });
  });

  it("leaves out the strips where they would be those that are there", () => {
    expect(viewQuestion(state, [], false)?.heights).toBe(0);
  });
});
