// The engine as a page has it, at hand for a test.

import { embeddedEngine } from "../../src/engine/embedded.ts";
import type { Engine } from "../../src/engine.ts";

declare global {
  var engine: Engine;
}

globalThis.engine = embeddedEngine();
