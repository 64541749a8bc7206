// Makes the pages, into build/web.
//
//   node build.mjs               all of them
//   node build.mjs workspace     one
import { mkdir, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { builtFolder, composePage } from "./compose.mjs";

/** Page by name: the folder of src that it is made of. */
const pages = new Map([
  ["workspace", "workspace"],
  ["why", "page"],
]);

/** @param {string} name */
async function makePage(name) {
  const folder = pages.get(name);
  if (folder === undefined) throw new Error(`no page ${name}; there are: ${[...pages.keys()]}`);
  const page = await composePage(fileURLToPath(new URL(`src/${folder}`, import.meta.url)));
  await mkdir(`${builtFolder}web`, { recursive: true });
  await writeFile(`${builtFolder}web/${name}.html`, page);
  console.log(`build/web/${name}.html  ${Math.ceil(Buffer.byteLength(page) / 1000)} kB`);
}

const wanted = process.argv.slice(2);
for (const name of wanted.length > 0 ? wanted : pages.keys()) await makePage(name);
