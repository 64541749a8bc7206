// The loader that the preset `wasm` builds (apps/browser): build/wasm/engine.mjs. build.mjs and vitest.config.ts say where it is.
declare module "axlewright-engine" {
  /** Texts are places in the engine's memory; the free ones are the caller's to free. */
  export interface EngineModule {
    _axlewright_put(path: number, text: number): void;
    _axlewright_remove(path: number): void;
    /** The answer stays where it is until the next call. */
    _axlewright_ask(question: number): number;
    _malloc(bytes: number): number;
    _free(place: number): void;
    lengthBytesUTF8(text: string): number;
    stringToUTF8(text: string, place: number, room: number): void;
    UTF8ToString(place: number): string;
  }

  export default function createModule(options: {
    instantiateWasm(
      imports: WebAssembly.Imports,
      started: (instance: WebAssembly.Instance, module: WebAssembly.Module) => void,
    ): object;
    /** Whether to go on; called with the share done. */
    progress(share: number): boolean;
  }): Promise<EngineModule>;
}
