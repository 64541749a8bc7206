import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { kExamples, kFirstExample } from "./examples.ts";

const kTrucks = fileURLToPath(new URL("../../../trucks/", import.meta.url));

it("the page has every example truck, as it stands in trucks/", () => {
  const folder = (name: string) =>
    readdirSync(kTrucks + name)
      .filter((file) => file.endsWith(".toml"))
      .map((file) => name + file);
  const files = [...folder(""), ...folder("kits/")].sort();
  expect([...kExamples.keys()].sort()).toEqual(files);
  for (const [path, text] of kExamples) expect(text).toBe(readFileSync(kTrucks + path, "utf8"));
  expect(kExamples.has(kFirstExample)).toBe(true);
});
