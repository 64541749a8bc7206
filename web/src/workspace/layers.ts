// Files as a person hands them over, against the paths by which truck files name each other.

import type { Fault } from "../engine.ts";
import { offsetOf } from "./editor_notes.ts";
import type { Texts } from "./state.ts";

/** Folders are there where a whole folder was handed over. */
export interface ReadFile {
  readonly path: string;
  readonly text: string;
}

function baseName(path: string): string {
  return path.slice(path.lastIndexOf("/") + 1);
}

/** The path that `layer`, as the file at `from` writes it, names. */
export function layerPath(from: string, layer: string): string {
  const parts = from.split("/").slice(0, -1);
  for (const part of layer.split("/")) {
    if (part === ".." && parts.length > 0 && parts.at(-1) !== "..") parts.pop();
    else if (part !== ".") parts.push(part);
  }
  return parts.join("/");
}

/** Layers that a fault points at and that are not there. The engine marks the layer's name where it is written. */
export function missingLayers(faults: readonly Fault[], texts: Texts): string[] {
  const missing = new Set<string>();
  for (const fault of faults) {
    const text = texts.get(fault.file);
    if (text === undefined || fault.line === 0) continue;
    const begin = offsetOf(text, fault.line, fault.column);
    const end = offsetOf(text, fault.line, fault.column + fault.length);
    const layer = text.slice(begin, end).match(/^["'](.+\.toml)["']$/)?.[1];
    if (layer === undefined) continue;
    const path = layerPath(fault.file, layer);
    if (!texts.has(path)) missing.add(path);
  }
  return [...missing];
}

/** Lays files under the paths that are missing where only their names agree: picked one by one, a file has lost its folder. */
export function placeFiles(files: readonly ReadFile[], missing: readonly string[]): Texts {
  const placed = new Map<string, string>();
  for (const file of files) {
    const wanted = missing.filter((path) => baseName(path) === baseName(file.path));
    const paths = missing.includes(file.path) || wanted.length === 0 ? [file.path] : wanted;
    for (const path of paths) placed.set(path, file.text);
  }
  return placed;
}

/** Other files whose text names `path`: what changes there changes them too. */
export function filesNaming(path: string, texts: Texts): string[] {
  const naming: string[] = [];
  for (const [from, text] of texts) {
    const names = [...text.matchAll(/["']([^"'\n]+\.toml)["']/g)].map(
      (match) => match[1] as string,
    );
    if (names.some((name) => layerPath(from, name) === path)) naming.push(from);
  }
  return naming;
}
