// Puts a page together: one HTML file with style, script, worker and engine inside, so that it opens from disk, offline.
import { readFile } from "node:fs/promises";
import { resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { build } from "esbuild";

export const builtFolder = fileURLToPath(new URL("../build/", import.meta.url));

// The oldest browsers that have WebAssembly with exceptions, and streams that unpack.
const target = ["chrome95", "firefox113", "safari16.4"];

/**
 * `import text from "./file?raw"` takes in the file's text.
 * @type {import("esbuild").Plugin}
 */
const rawFiles = {
  name: "raw files",
  setup(building) {
    building.onResolve({ filter: /\?raw$/ }, ({ path, resolveDir }) => ({
      path: resolve(resolveDir, path.replace(/\?raw$/, "")),
      namespace: "raw",
    }));
    building.onLoad({ filter: /.*/, namespace: "raw" }, async ({ path }) => ({
      contents: await readFile(path, "utf8"),
      loader: "text",
    }));
  },
};

/** @param {string} entry */
async function bundle(entry) {
  const result = await build({
    entryPoints: [entry],
    plugins: [rawFiles],
    alias: { "axlewright-engine": `${builtFolder}wasm/engine.mjs` },
    bundle: true,
    minify: true,
    legalComments: "none",
    format: "iife",
    target,
    write: false,
  });
  const [file] = result.outputFiles;
  if (!file) throw new Error(`nothing came of ${entry}`);
  return file.text.trimEnd();
}

/**
 * Text that may stand inside <script>: nothing in it ends the element or begins a comment.
 * @param {string} text
 */
export function insideScript(text) {
  return text.replace(/<\/(?=script)/gi, "<\\/").replaceAll("<!--", "<\\!--");
}

/** Where src/engine/embedded.ts looks for them. Packed, since a page is a file to mail: a third of the size. */
async function engineElements() {
  const worker = await bundle(fileURLToPath(new URL("src/engine/worker.ts", import.meta.url)));
  const wasm = gzipSync(await readFile(`${builtFolder}wasm/engine.wasm`), { level: 9 });
  return [
    `<script id="axlewright-worker" type="text/plain">${insideScript(worker)}</script>`,
    `<script id="axlewright-wasm" type="text/plain">${wasm.toString("base64")}</script>`,
  ];
}

/**
 * @param {string} html
 * @param {string} tag
 * @param {string} text
 */
export function insertBefore(html, tag, text) {
  const [head, tail, ...more] = html.split(tag);
  if (tail === undefined || more.length > 0) throw new Error(`the page needs one ${tag}`);
  return `${head}${text}\n${tag}${tail}`;
}

/**
 * The page of a folder with index.html, style.css and main.ts.
 * @param {string} folder
 */
export async function composePage(folder) {
  const html = await readFile(`${folder}/index.html`, "utf8");
  const style = await bundle(`${folder}/style.css`);
  const script = `<script>${insideScript(await bundle(`${folder}/main.ts`))}</script>`;
  const styled = insertBefore(html, "</head>", `<style>${style}</style>`);
  return insertBefore(styled, "</body>", [...(await engineElements()), script].join("\n"));
}
