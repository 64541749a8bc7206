// The example trucks, for a page that was opened from disk with nothing.

import dunlin28 from "../../../trucks/dunlin-28.toml?raw";
import dunlin35 from "../../../trucks/dunlin-35.toml?raw";
import dunlin45 from "../../../trucks/dunlin-45.toml?raw";
import fourBar from "../../../trucks/four-bar.toml?raw";
import guided from "../../../trucks/guided.toml?raw";
import guidedLoose from "../../../trucks/guided-loose.toml?raw";
import halfConverted from "../../../trucks/half-converted.toml?raw";
import fourBarLocator from "../../../trucks/kits/four-bar-locator.toml?raw";
import guidedKit from "../../../trucks/kits/guided-kit.toml?raw";
import guidedLocator from "../../../trucks/kits/guided-locator.toml?raw";
import guidedSteering from "../../../trucks/kits/guided-steering.toml?raw";
import keeper from "../../../trucks/kits/keeper.toml?raw";
import leafSprings from "../../../trucks/kits/leaf-springs.toml?raw";
import longLinks from "../../../trucks/kits/long-links.toml?raw";
import plainTieRod from "../../../trucks/kits/plain-tie-rod.toml?raw";
import radiusArms from "../../../trucks/kits/radius-arms.toml?raw";
import rockerLocator from "../../../trucks/kits/rocker-locator.toml?raw";
import rockerSteering from "../../../trucks/kits/rocker-steering.toml?raw";
import shortLinks from "../../../trucks/kits/short-links.toml?raw";
import leaf from "../../../trucks/leaf.toml?raw";
import plainMeasured from "../../../trucks/plain-measured.toml?raw";
import plainMismatched from "../../../trucks/plain-mismatched.toml?raw";
import plainParallel from "../../../trucks/plain-parallel.toml?raw";
import radiusArm from "../../../trucks/radius-arm.toml?raw";
import rockerGuided from "../../../trucks/rocker-guided.toml?raw";
import twoAxle from "../../../trucks/two-axle.toml?raw";
import type { Texts } from "./state.ts";

/** Paths are those of the folder `trucks/`. */
export const kExamples: Texts = new Map([
  ["plain-mismatched.toml", plainMismatched],
  ["plain-parallel.toml", plainParallel],
  ["half-converted.toml", halfConverted],
  ["guided-loose.toml", guidedLoose],
  ["guided.toml", guided],
  ["rocker-guided.toml", rockerGuided],
  ["four-bar.toml", fourBar],
  ["radius-arm.toml", radiusArm],
  ["leaf.toml", leaf],
  ["two-axle.toml", twoAxle],
  ["plain-measured.toml", plainMeasured],
  ["dunlin-28.toml", dunlin28],
  ["dunlin-35.toml", dunlin35],
  ["dunlin-45.toml", dunlin45],
  ["kits/four-bar-locator.toml", fourBarLocator],
  ["kits/guided-kit.toml", guidedKit],
  ["kits/guided-locator.toml", guidedLocator],
  ["kits/guided-steering.toml", guidedSteering],
  ["kits/keeper.toml", keeper],
  ["kits/leaf-springs.toml", leafSprings],
  ["kits/long-links.toml", longLinks],
  ["kits/plain-tie-rod.toml", plainTieRod],
  ["kits/radius-arms.toml", radiusArms],
  ["kits/rocker-locator.toml", rockerLocator],
  ["kits/rocker-steering.toml", rockerSteering],
  ["kits/short-links.toml", shortLinks],
]);

/** The example that a page opens with: the lesson that most visitors come for. */
export const kFirstExample = "plain-mismatched.toml";
