// The engine that compose.mjs laid into the page: the worker's script and the packed module, in two elements that the browser
// itself leaves alone.

import type { Engine } from "../engine.ts";
import { compiledEngine } from "./compiled.ts";

function textOf(id: string): string {
  const text = document.getElementById(id)?.textContent;
  if (!text) throw new Error(`this page was built without ${id}`);
  return text;
}

function bytesOf(base64: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
}

async function compile(): Promise<WebAssembly.Module> {
  const packed = new Blob([bytesOf(textOf("axlewright-wasm"))]);
  const unpacked = packed.stream().pipeThrough(new DecompressionStream("gzip"));
  return WebAssembly.compile(await new Response(unpacked).arrayBuffer());
}

/** May be asked at once: what is asked waits until the module is compiled. */
export function embeddedEngine(): Engine {
  const script = new Blob([textOf("axlewright-worker")], { type: "text/javascript" });
  const address = URL.createObjectURL(script);
  return compiledEngine({ startWorker: () => new Worker(address), wasm: compile() });
}
