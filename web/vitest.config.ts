import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

export default defineConfig({
  resolve: {
    alias: {
      "axlewright-engine": fileURLToPath(new URL("../build/wasm/engine.mjs", import.meta.url)),
    },
  },
  // The example trucks stand beside web/.
  server: { fs: { allow: [fileURLToPath(new URL("..", import.meta.url))] } },
  test: {
    include: ["*.test.ts", "src/**/*.test.ts", "tests/**/*.test.ts"],
    // Starting afresh for each file took five times as long as the tests themselves; no file leaves anything behind.
    isolate: false,
    // Browsers wait much of their time: two files at once.
    minWorkers: 1,
    maxWorkers: 2,
    // Real browsers and whole sweeps take their time on a busy machine.
    testTimeout: 60_000,
    hookTimeout: 60_000,
  },
});
