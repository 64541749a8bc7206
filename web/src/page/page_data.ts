// What the program put into the page: the truck files, which two are shown, the shop's own words.

import type { LengthUnit } from "../units.ts";

export interface RecordedPicture {
  /** Which of the two trucks. */
  readonly truck: number;
  readonly height_mm: number;
  readonly svg: string;
  /** What the engine says of that pose. */
  readonly words?: string;
}

export interface PageData {
  readonly files: Readonly<Record<string, string>>;
  readonly trucks: readonly [string, string];
  readonly shop: { readonly name: string; readonly words: string };
  readonly units: LengthUnit;
  readonly pictures: readonly RecordedPicture[];
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function textOf(value: unknown): string {
  return typeof value === "string" ? value : "";
}

function filesOf(value: unknown): Record<string, string> {
  if (!isRecord(value)) throw new Error("the page carries no truck files");
  const files: Record<string, string> = {};
  for (const [path, text] of Object.entries(value)) {
    if (typeof text !== "string") throw new Error(`the truck file ${path} in the page is no text`);
    files[path] = text;
  }
  return files;
}

function trucksOf(value: unknown, files: Readonly<Record<string, string>>): [string, string] {
  const paths = Array.isArray(value) ? value.map(textOf) : [];
  const [first, second] = paths;
  if (first === undefined || second === undefined)
    throw new Error("the page does not name two trucks");
  for (const path of [first, second]) {
    if (!Object.hasOwn(files, path))
      throw new Error(`the page does not carry the truck file ${path}`);
  }
  return [first, second];
}

function picturesOf(value: unknown): RecordedPicture[] {
  if (!Array.isArray(value)) return [];
  const pictures: RecordedPicture[] = [];
  for (const picture of value) {
    if (!isRecord(picture)) continue;
    const { truck, height_mm, svg, words } = picture;
    if (typeof truck !== "number" || typeof height_mm !== "number" || typeof svg !== "string")
      continue;
    pictures.push({ truck, height_mm, svg, ...(typeof words === "string" ? { words } : {}) });
  }
  return pictures;
}

/** `text` is JSON, or "null" in a page that no truck was put into: then `examples` are shown. */
export function readPageData(text: string, examples: PageData): PageData {
  const data: unknown = JSON.parse(text);
  if (data === null) return examples;
  if (!isRecord(data)) throw new Error("what the page carries is no page data");
  const files = filesOf(data.files);
  const shop = isRecord(data.shop) ? data.shop : {};
  return {
    files,
    trucks: trucksOf(data.trucks, files),
    shop: { name: textOf(shop.name), words: textOf(shop.words) },
    units: data.units === "inch" ? "inch" : "mm",
    pictures: picturesOf(data.pictures),
  };
}
