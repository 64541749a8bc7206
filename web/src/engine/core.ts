// The compiled engine, called in place: in a worker, or in a test under Node (apps/browser/engine.cpp is the other side).

import createModule, { type EngineModule } from "axlewright-engine";

export interface Core {
  put(path: string, text: string): void;
  remove(path: string): void;
  /** JSON to JSON. Throws where the engine broke down; it is then not to be used any more. */
  ask(question: string): string;
}

export async function startCore(
  wasm: WebAssembly.Module,
  onProgress: (share: number) => void,
): Promise<Core> {
  const module = await new Promise<EngineModule>((resolve, reject) => {
    createModule({
      // The loader would fetch the module, and what was opened from disk may fetch nothing.
      instantiateWasm(imports, started) {
        WebAssembly.instantiate(wasm, imports).then((instance) => started(instance, wasm), reject);
        return {};
      },
      progress(share) {
        onProgress(share);
        return true;
      },
    }).then(resolve, reject);
  });

  function placed(text: string): number {
    const room = module.lengthBytesUTF8(text) + 1;
    const place = module._malloc(room);
    if (place === 0) throw new Error("out of memory");
    module.stringToUTF8(text, place, room);
    return place;
  }

  return {
    put(path, text) {
      const [pathPlace, textPlace] = [placed(path), placed(text)];
      module._axlewright_put(pathPlace, textPlace);
      module._free(pathPlace);
      module._free(textPlace);
    },
    remove(path) {
      const place = placed(path);
      module._axlewright_remove(place);
      module._free(place);
    },
    ask(question) {
      const place = placed(question);
      const answer = module._axlewright_ask(place);
      module._free(place);
      return module.UTF8ToString(answer);
    },
  };
}
