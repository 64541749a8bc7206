// Saving: what changes in which file is shown first; what changed underneath is shown before anything is lost.

import { button, element, setText } from "./dom.ts";
import { download } from "./download.ts";
import { filesNaming } from "./layers.ts";
import { lineChanges } from "./line_changes.ts";
import type { SaveResult, Server } from "./server.ts";
import { type State, unsaved } from "./state.ts";
import type { Store } from "./store.ts";

function changeTable(before: string, after: string, heads: readonly [string, string]): HTMLElement {
  const rows = lineChanges(before, after).map((change) =>
    element(
      "tr",
      {},
      element("td", { class: "number" }, String(change.line)),
      element("td", {}, element("code", {}, change.before.join("\n"))),
      element("td", {}, element("code", {}, change.after.join("\n"))),
    ),
  );
  const head = ["Line", ...heads].map((words) => element("th", { scope: "col" }, words));
  return element(
    "table",
    { class: "changes" },
    element("thead", {}, element("tr", {}, ...head)),
    element("tbody", {}, ...rows),
  );
}

function baseName(path: string): string {
  return path.slice(path.lastIndexOf("/") + 1);
}

export class Saving {
  readonly element = element("dialog", { class: "saving", "aria-label": "Save" });
  private readonly body = element("div", { class: "saving-body" });
  private readonly notice = element("p", { class: "field-fault", role: "alert" });

  constructor(
    private readonly store: Store,
    private readonly server: Server,
  ) {
    this.element.append(this.body, this.notice);
  }

  open(): void {
    setText(this.notice, "");
    this.showChanges();
    if (!this.element.open) this.element.showModal();
  }

  private showChanges(): void {
    const state = this.store.state;
    const paths = unsaved(state);
    const close = button(paths.length === 0 ? "Close" : "Not yet", () => this.element.close());
    const served = state.source === "server";
    const words = served ? "Save" : "Download";
    const save = button(words, () => void this.saveAll(paths), { class: "primary" });
    this.body.replaceChildren(
      element("h2", {}, paths.length === 0 ? "Nothing has changed" : "What changes"),
      ...paths.map((path) => this.fileChanges(state, path)),
      ...(!served && paths.length > 0
        ? [
            element(
              "p",
              { class: "note" },
              "Downloaded files go where your browser puts downloads; put them in place of the old ones.",
            ),
          ]
        : []),
      element("div", { class: "buttons" }, ...(paths.length === 0 ? [close] : [save, close])),
    );
  }

  private fileChanges(state: State, path: string): HTMLElement {
    const others = filesNaming(path, state.texts).filter((file) => file !== state.file);
    return element(
      "section",
      { class: "file-changes" },
      element("h3", {}, path),
      ...(others.length > 0
        ? [
            element(
              "p",
              { class: "shared" },
              `Also a layer of ${others.join(", ")}: what is saved here changes them too.`,
            ),
          ]
        : []),
      changeTable(state.stored.get(path) ?? "", state.texts.get(path) ?? "", ["Before", "After"]),
    );
  }

  private async saveAll(paths: readonly string[]): Promise<void> {
    for (const path of paths) {
      if (!(await this.save(path))) return;
    }
    this.element.close();
  }

  /** False where the person has to choose first, or it failed. */
  private async save(path: string): Promise<boolean> {
    const state = this.store.state;
    const text = state.texts.get(path) ?? "";
    if (state.source !== "server") {
      download(baseName(path), text, "application/toml");
      this.store.dispatch({ do: "saved", path, text });
      return true;
    }
    try {
      const result = await this.server.write(path, text, state.versions.get(path) ?? "");
      if (!result.saved) {
        this.showConflict(path, result);
        return false;
      }
      this.store.dispatch({ do: "saved", path, text, version: result.version });
      return true;
    } catch (error) {
      setText(
        this.notice,
        `${path} is not saved: ${error instanceof Error ? error.message : error}`,
      );
      return false;
    }
  }

  private showConflict(path: string, theirs: Extract<SaveResult, { saved: false }>): void {
    const mine = this.store.state.texts.get(path) ?? "";
    const { text, version } = theirs;
    const keepMine = button("Save mine over it", () => {
      this.store.dispatch({ do: "saved", path, text, version });
      void this.saveAll(unsaved(this.store.state));
    });
    const takeTheirs = button("Take what is there", () => {
      this.store.dispatch({ do: "take theirs", path, text, version });
      this.open();
    });
    this.body.replaceChildren(
      element("h2", {}, `${path} has changed underneath`),
      element(
        "p",
        {},
        "Somebody saved it after it was read here. Take what is there, and yours comes back by undo; or save yours over it.",
      ),
      changeTable(text, mine, ["There now", "Mine"]),
      element(
        "div",
        { class: "buttons" },
        takeTheirs,
        keepMine,
        button("Leave both", () => this.element.close()),
      ),
    );
  }
}
