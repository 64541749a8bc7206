// The example trucks, read from the disk: the texts by path as the desk of a test has them.

import { readdirSync, readFileSync } from "node:fs";
import { root } from "./native.ts";

function tomlFilesIn(folder: string): string[] {
  return readdirSync(`${root}${folder}`)
    .filter((name) => name.endsWith(".toml"))
    .map((name) => `${folder}/${name}`);
}

export const truckFiles = tomlFilesIn("trucks");

export const desk: ReadonlyMap<string, string> = new Map(
  [...truckFiles, ...tomlFilesIn("trucks/kits")].map((path) => [
    path,
    readFileSync(`${root}${path}`, "utf8"),
  ]),
);
