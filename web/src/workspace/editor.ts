// The file's text, with every fault beside its line as one types.

import type { Fault } from "../engine.ts";
import { button, element, newId, setText } from "./dom.ts";
import { notesByLine, offsetOf, stacked } from "./editor_notes.ts";
import type { Texts } from "./state.ts";

export interface EditorEvents {
  readonly type: (path: string, text: string) => void;
  readonly choose: (path: string) => void;
}

const kLineHeight_px = 20;
const kGap_px = 4;

export class Editor {
  readonly element: HTMLElement;
  private readonly files: HTMLSelectElement;
  private readonly gutter = element("div", { class: "gutter", "aria-hidden": "true" });
  private readonly lines = element("div", { class: "gutter-lines" });
  private readonly area: HTMLTextAreaElement;
  private readonly notes = element("div", { class: "notes" });
  private readonly noteList = element("ol", { class: "note-list" });
  private readonly summary = element("p", { class: "editor-summary", role: "status" });
  private path: string | undefined;
  private faults: readonly Fault[] = [];
  private lineCount = 0;
  private marked = "";

  constructor(events: EditorEvents) {
    const fileId = newId("file");
    const summaryId = newId("summary");
    this.summary.id = summaryId;
    this.files = element("select", { id: fileId });
    this.files.addEventListener("change", () => events.choose(this.files.value));
    this.area = element("textarea", {
      class: "editor-text",
      spellcheck: "false",
      autocomplete: "off",
      autocapitalize: "off",
      wrap: "off",
      "aria-label": "Text of the truck file",
      "aria-describedby": summaryId,
    });
    this.area.addEventListener("input", () => {
      if (this.path !== undefined) events.type(this.path, this.area.value);
    });
    this.area.addEventListener("scroll", () => this.scrolled());
    this.gutter.append(this.lines);
    this.notes.append(this.noteList);
    this.element = element(
      "div",
      { class: "editor" },
      element(
        "div",
        { class: "editor-head" },
        element("label", { for: fileId }, "File "),
        this.files,
        this.summary,
      ),
      element("div", { class: "editor-body" }, this.gutter, this.area, this.notes),
    );
    new ResizeObserver(() => this.placeNotes()).observe(this.area);
  }

  show(
    texts: Texts,
    path: string | undefined,
    faults: readonly Fault[],
    changed: readonly string[],
  ) {
    this.showFiles(texts, path, faults, changed);
    const text = path === undefined ? "" : (texts.get(path) ?? "");
    if (path !== this.path) {
      this.path = path;
      this.area.value = text;
      this.area.scrollTop = 0;
    } else if (this.area.value !== text) {
      this.replaceKeepingPlace(text);
    }
    this.area.disabled = path === undefined;
    if (faults !== this.faults || this.lineCount === 0) {
      this.faults = faults;
      this.showNotes();
    }
    this.showGutter(text);
  }

  /** Shows the place of a fault and puts the caret there. */
  goTo(fault: Fault): void {
    const from = offsetOf(this.area.value, fault.line, fault.column);
    const to = offsetOf(this.area.value, fault.line, fault.column + fault.length);
    this.area.focus();
    this.area.setSelectionRange(from, to);
    const top = (fault.line - 1) * kLineHeight_px;
    const { scrollTop, clientHeight } = this.area;
    if (top < scrollTop || top > scrollTop + clientHeight - 2 * kLineHeight_px) {
      this.area.scrollTop = Math.max(0, top - clientHeight / 2);
    }
  }

  private showFiles(
    texts: Texts,
    path: string | undefined,
    faults: readonly Fault[],
    changed: readonly string[],
  ): void {
    const faulty = new Set(faults.map((fault) => fault.file));
    const words = [...texts.keys()].map((file) => {
      const marks = [
        ...(changed.includes(file) ? ["not saved"] : []),
        ...(faulty.has(file) ? ["faults"] : []),
      ];
      return [file, marks.length > 0 ? `${file} (${marks.join(", ")})` : file] as const;
    });
    const key = words.map(([, label]) => label).join("\n");
    if (this.files.dataset.key !== key) {
      this.files.dataset.key = key;
      this.files.replaceChildren(
        ...words.map(([file, label]) => element("option", { value: file }, label)),
      );
    }
    if (path !== undefined && this.files.value !== path) this.files.value = path;
  }

  /** A number that the sheet changed leaves caret and scroll where they are. */
  private replaceKeepingPlace(text: string): void {
    const { selectionStart, selectionEnd, scrollTop } = this.area;
    this.area.value = text;
    this.area.setSelectionRange(
      Math.min(selectionStart, text.length),
      Math.min(selectionEnd, text.length),
    );
    this.area.scrollTop = scrollTop;
  }

  private showGutter(text: string): void {
    const count = text.split("\n").length;
    const marks = notesByLine(this.faults, this.path ?? "").map((note) => note.line);
    const marked = `${count} ${marks}`;
    if (marked === this.marked) return;
    this.marked = marked;
    this.lineCount = count;
    const bad = new Set(marks);
    this.lines.replaceChildren(
      ...Array.from({ length: count }, (_, i) =>
        element(
          "div",
          { class: bad.has(i + 1) ? "is-faulty" : undefined },
          `${bad.has(i + 1) ? "\u25b8 " : ""}${i + 1}`,
        ),
      ),
    );
    this.scrolled();
  }

  private showNotes(): void {
    const notes = notesByLine(this.faults, this.path ?? "");
    this.noteList.replaceChildren(
      ...notes.flatMap((note) => note.faults.map((fault) => this.note(note.line, fault))),
    );
    const elsewhere = this.faults.filter((fault) => fault.file !== this.path);
    const here = this.faults.length - elsewhere.length;
    const counts = [
      here === 0 ? "" : `${here} ${here === 1 ? "fault" : "faults"} in this file`,
      elsewhere.length === 0
        ? ""
        : `${elsewhere.length} in ${[...new Set(elsewhere.map((fault) => fault.file))].join(", ")}`,
    ].filter((words) => words !== "");
    setText(this.summary, counts.join("; ") || "No faults.");
    this.placeNotes();
  }

  private note(line: number, fault: Fault): HTMLElement {
    const jump = button(`line ${line}`, () => this.goTo(fault), { class: "go" });
    return element(
      "li",
      { class: `note-${fault.severity}`, "data-line": line },
      jump,
      ` ${fault.severity === "warning" ? "warning: " : ""}${fault.what}`,
      ...(fault.fix ? [element("span", { class: "fix" }, fault.fix)] : []),
    );
  }

  private placeNotes(): void {
    const items = [...this.noteList.children] as HTMLElement[];
    const wished = items.map((item) => (Number(item.dataset.line) - 1) * kLineHeight_px);
    const tops = stacked(
      wished,
      items.map((item) => item.offsetHeight),
      kGap_px,
    );
    items.forEach((item, i) => {
      item.style.top = `${tops[i]}px`;
    });
    this.scrolled();
  }

  private scrolled(): void {
    const shift = `translateY(${-this.area.scrollTop}px)`;
    this.lines.style.transform = shift;
    this.noteList.style.transform = shift;
  }
}
