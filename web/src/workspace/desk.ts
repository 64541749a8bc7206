// Keeps the files on an engine's desk those of a version.

import type { Engine } from "../engine.ts";
import type { Texts } from "./state.ts";

export class Desk {
  private laid: Texts = new Map();

  constructor(private readonly engine: Engine) {}

  /** Questions asked from now on see these texts; those asked before do not. */
  lay(texts: Texts): void {
    if (texts === this.laid) return;
    for (const path of this.laid.keys()) {
      if (!texts.has(path)) this.engine.remove(path);
    }
    for (const [path, text] of texts) {
      if (this.laid.get(path) !== text) this.engine.put(path, text);
    }
    this.laid = texts;
  }
}
