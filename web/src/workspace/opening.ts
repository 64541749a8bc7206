// Opens files: those of a server's folder, the built-in examples, or what a person drops or picks.

import type { Engine } from "../engine.ts";
import { isFailure } from "../engine.ts";
import { Desk } from "./desk.ts";
import { kExamples, kFirstExample } from "./examples.ts";
import type { FindingsStore } from "./findings.ts";
import { missingLayers, placeFiles, type ReadFile } from "./layers.ts";
import type { ServedFile } from "./server.ts";
import type { Texts } from "./state.ts";
import type { Store } from "./store.ts";

/** Files that can be told from truck files by their size: nobody writes a megabyte of points. */
const kLargest_bytes = 1_000_000;

export class Opening {
  private readonly desk: Desk;

  constructor(
    private readonly engine: Engine,
    private readonly store: Store,
    private readonly findings: FindingsStore,
  ) {
    this.desk = new Desk(engine);
  }

  examples(): void {
    this.store.dispatch({
      do: "open",
      source: "examples",
      texts: kExamples,
      file: kFirstExample,
      replace: true,
    });
  }

  async served(files: readonly ServedFile[]): Promise<void> {
    const texts = new Map(files.map((file) => [file.path, file.text]));
    const versions = new Map(files.map((file) => [file.path, file.version]));
    const file = await this.firstTruck(texts);
    this.store.dispatch({ do: "open", source: "server", texts, versions, file, replace: true });
    if (files.length === 0) {
      const notice = "There is no truck file in this folder: open or drop some, or serve another.";
      this.findings.update({ notice });
    }
  }

  /** What was handed over joins the truck that waits for it, or is opened in its place. */
  async handed(files: readonly ReadFile[]): Promise<void> {
    const truckFiles = files.filter((file) => file.path.endsWith(".toml"));
    if (truckFiles.length === 0) {
      this.findings.update({ notice: "No truck file among these: their names end in .toml." });
      return;
    }
    const { missing } = this.findings.current;
    const placed = placeFiles(truckFiles, missing);
    if (missing.some((path) => placed.has(path))) {
      this.join(placed);
      return;
    }
    const texts = await this.gathered(truckFiles);
    const file = await this.firstTruck(texts);
    this.store.dispatch({ do: "open", source: "opened", texts, file, replace: true });
  }

  /** A second truck, in a folder of its own so that its layers do not take the place of those that are there. */
  async added(files: readonly ReadFile[]): Promise<void> {
    const truckFiles = files.filter((file) => file.path.endsWith(".toml"));
    if (truckFiles.length === 0) return;
    const { texts } = this.store.state;
    let count = 1;
    const folder = () => `added-${count}/`;
    while ([...texts.keys()].some((path) => path.startsWith(folder()))) count += 1;
    const gathered = await this.gathered(truckFiles);
    const moved = new Map([...gathered].map(([path, text]) => [folder() + path, text]));
    const file = await this.firstTruck(moved);
    this.join(moved);
    this.store.dispatch({ do: "compare", file });
  }

  private join(texts: Texts): void {
    const { source } = this.store.state;
    this.store.dispatch({ do: "open", source, texts, file: undefined, replace: false });
  }

  /** Files under the paths by which they name each other. Layers may name layers: as often as that finds one more. */
  private async gathered(files: readonly ReadFile[]): Promise<Texts> {
    let texts: Texts = new Map(files.map((file) => [file.path, file.text]));
    for (;;) {
      const missing = new Set<string>();
      for (const file of files) {
        for (const path of await this.missingFor(file.path, texts)) missing.add(path);
      }
      const more = new Map(
        [...placeFiles(files, [...missing])].filter(([path]) => missing.has(path)),
      );
      if (more.size === 0) return texts;
      texts = new Map([...texts, ...more]);
    }
  }

  private async missingFor(file: string, texts: Texts): Promise<string[]> {
    this.desk.lay(texts);
    const answer = await this.engine.ask({ ask: "view", file });
    return isFailure(answer) ? missingLayers(answer.faults, texts) : [];
  }

  /** The first file whose pose can be had: a platform alone has nothing that holds its axle. Else the first, so that it is told why. */
  private async firstTruck(texts: Texts): Promise<string | undefined> {
    this.desk.lay(texts);
    for (const file of texts.keys()) {
      const answer = await this.engine.ask({ ask: "view", file });
      if (!isFailure(answer) && answer.complete) return file;
    }
    return texts.keys().next().value;
  }
}

/** Texts of the files that an input or a drop gives, with their folders where a folder was given. */
export async function readFiles(files: Iterable<File>): Promise<ReadFile[]> {
  const read: ReadFile[] = [];
  for (const file of files) {
    if (file.size > kLargest_bytes) continue;
    read.push({ path: file.webkitRelativePath || file.name, text: await file.text() });
  }
  return read;
}
