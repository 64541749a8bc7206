// The invented trucks of the examples, built into the page: the ideas are shown on them where a given truck does not fit.

import dunlin from "../../../trucks/dunlin-35.toml?raw";
import guided from "../../../trucks/guided.toml?raw";
import guidedLoose from "../../../trucks/guided-loose.toml?raw";
import guidedLocator from "../../../trucks/kits/guided-locator.toml?raw";
import guidedSteering from "../../../trucks/kits/guided-steering.toml?raw";
import keeper from "../../../trucks/kits/keeper.toml?raw";
import longLinks from "../../../trucks/kits/long-links.toml?raw";
import plainTieRod from "../../../trucks/kits/plain-tie-rod.toml?raw";
import shortLinks from "../../../trucks/kits/short-links.toml?raw";
import plainMismatched from "../../../trucks/plain-mismatched.toml?raw";
import plainParallel from "../../../trucks/plain-parallel.toml?raw";
import type { PageData } from "./page_data.ts";

/** A folder of their own: a given file may have the same name and other points. */
const kFolder = "made-up-trucks";

export const kExampleFiles: Readonly<Record<string, string>> = {
  [`${kFolder}/dunlin-35.toml`]: dunlin,
  [`${kFolder}/guided.toml`]: guided,
  [`${kFolder}/guided-loose.toml`]: guidedLoose,
  [`${kFolder}/kits/guided-locator.toml`]: guidedLocator,
  [`${kFolder}/kits/guided-steering.toml`]: guidedSteering,
  [`${kFolder}/kits/keeper.toml`]: keeper,
  [`${kFolder}/kits/long-links.toml`]: longLinks,
  [`${kFolder}/kits/plain-tie-rod.toml`]: plainTieRod,
  [`${kFolder}/kits/short-links.toml`]: shortLinks,
  [`${kFolder}/plain-mismatched.toml`]: plainMismatched,
  [`${kFolder}/plain-parallel.toml`]: plainParallel,
};

export const kExample = {
  differ: `${kFolder}/plain-mismatched.toml`,
  agree: `${kFolder}/plain-parallel.toml`,
  guided: `${kFolder}/guided.toml`,
  loose: `${kFolder}/guided-loose.toml`,
} as const;

/** What a page shows that no truck was put into. */
export const kExamplePage: PageData = {
  files: kExampleFiles,
  trucks: [kExample.differ, kExample.guided],
  shop: { name: "", words: "" },
  units: "mm",
  pictures: [],
};
