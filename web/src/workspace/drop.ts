// Files dropped on the page, folders with all that is in them.

import type { ReadFile } from "./layers.ts";

function filesOf(folder: FileSystemDirectoryEntry): Promise<FileSystemEntry[]> {
  const reader = folder.createReader();
  // A reader gives a hundred or so at a time, and none when it is done.
  const more = (found: FileSystemEntry[]): Promise<FileSystemEntry[]> =>
    new Promise((resolve, reject) => {
      reader.readEntries((entries) => {
        if (entries.length === 0) resolve(found);
        else resolve(more([...found, ...entries]));
      }, reject);
    });
  return more([]);
}

async function read(entry: FileSystemEntry, into: ReadFile[]): Promise<void> {
  if (entry.isDirectory) {
    for (const inner of await filesOf(entry as FileSystemDirectoryEntry)) await read(inner, into);
  } else if (entry.name.endsWith(".toml")) {
    const file = await new Promise<File>((resolve, reject) => {
      (entry as FileSystemFileEntry).file(resolve, reject);
    });
    into.push({ path: entry.fullPath.replace(/^\//, ""), text: await file.text() });
  }
}

export function onDrop(target: HTMLElement, opened: (files: ReadFile[]) => void): void {
  target.addEventListener("dragover", (event) => {
    if (event.dataTransfer?.types.includes("Files")) event.preventDefault();
  });
  target.addEventListener("drop", async (event) => {
    const items = [...(event.dataTransfer?.items ?? [])];
    // Entries are there only until the event is over.
    const entries = items.map((item) => item.webkitGetAsEntry()).filter((entry) => entry !== null);
    if (entries.length === 0) return;
    event.preventDefault();
    const files: ReadFile[] = [];
    for (const entry of entries) await read(entry, files);
    opened(files);
  });
}
