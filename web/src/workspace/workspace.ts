// Puts the workspace together: state, engine, page.

import type { Drawing } from "../draw/drawing.ts";
import type { Engine } from "../engine.ts";
import { Asking } from "./asking.ts";
import { button } from "./dom.ts";
import { copyText } from "./download.ts";
import { onDrop } from "./drop.ts";
import { type Findings, FindingsStore } from "./findings.ts";
import { onKeys } from "./keys.ts";
import { Moving } from "./moving.ts";
import { Opening } from "./opening.ts";
import { Page } from "./page.ts";
import type { PageEvents } from "./page_events.ts";
import { Saving } from "./saving.ts";
import { Server } from "./server.ts";
import { kStart, unsaved } from "./state.ts";
import { Store } from "./store.ts";
import { csvOf, saveCsv, savePng, saveSvg } from "./taking_away.ts";
import { applyTheme, onSystemTheme, storedTheme, storeTheme } from "./theme.ts";
import { poseAt } from "./view_question.ts";

export class Workspace {
  private readonly store = new Store({ ...kStart, theme: storedTheme() });
  private readonly findings = new FindingsStore();
  private readonly server = new Server((path, options) => fetch(path, options));
  private readonly asking: Asking;
  private readonly opening: Opening;
  private readonly saving: Saving;
  private readonly moving: Moving;
  private readonly page: Page;
  private frame: number | undefined;
  /** What the drawing on the page is of. */
  private shownOf: Findings["viewOf"];

  constructor(body: HTMLElement, engine: Engine, behindEngine: Engine) {
    this.asking = new Asking(engine, behindEngine, this.store, this.findings, () =>
      this.page.wantedViews(this.store.state),
    );
    this.opening = new Opening(behindEngine, this.store, this.findings);
    this.saving = new Saving(this.store, this.server);
    this.moving = new Moving(this.store, this.asking.writing, () => {
      const { texts, trial } = this.store.state;
      return this.shownOf?.texts === texts && this.shownOf.trial === trial;
    });
    this.page = new Page(body, this.events());
    body.append(this.saving.element);
    applyTheme(this.store.state.theme);
    this.listen(body);
  }

  async start(): Promise<void> {
    try {
      const served = location.protocol.startsWith("http") ? await this.server.readAll() : undefined;
      if (served) await this.opening.served(served);
      else this.opening.examples();
    } catch (error) {
      const notice = `The folder cannot be read: ${error instanceof Error ? error.message : error}`;
      this.findings.update({ notice });
    }
  }

  private listen(body: HTMLElement): void {
    this.store.listen((state, before) => {
      if (state.theme !== before.theme) {
        applyTheme(state.theme);
        storeTheme(state.theme);
      }
      this.draw();
    });
    this.findings.listen(() => this.draw());
    onSystemTheme(() => applyTheme(this.store.state.theme));
    onDrop(body, (files) => void this.opening.handed(files));
    onKeys({
      undo: () => this.store.dispatch({ do: "undo" }),
      redo: () => this.store.dispatch({ do: "redo" }),
      save: () => void this.save(),
    });
    window.addEventListener("beforeunload", (event) => {
      if (unsaved(this.store.state).length > 0) event.preventDefault();
    });
  }

  /** Once a frame, however often something changed. */
  private draw(): void {
    this.frame ??= requestAnimationFrame(() => {
      this.frame = undefined;
      this.page.show(this.store.state, this.findings.current);
      this.shownOf = this.findings.current.viewOf;
      this.asking.frames.painted();
    });
  }

  private async save(): Promise<void> {
    await this.asking.writing.now();
    this.saving.open();
  }

  private events(): PageEvents {
    const { store, moving } = this;
    return {
      topBar: {
        choose: (file) => store.dispatch({ do: "choose truck", file }),
        opened: (files) => void this.opening.handed(files),
        save: () => void this.save(),
        undo: () => store.dispatch({ do: "undo" }),
        redo: () => store.dispatch({ do: "redo" }),
        units: (units) => store.dispatch({ do: "units", units }),
        theme: (theme) => store.dispatch({ do: "theme", theme }),
      },
      sheet: {
        select: moving.select,
        begin: moving.begin,
        move: moving.move,
        end: moving.end,
        cancel: moving.cancel,
        nudge: moving.nudge,
        enlarge: (view) => store.dispatch({ do: "enlarge", view }),
        eye: (eye) => store.dispatch({ do: "eye", eye }),
        resized: () => this.asking.resized(),
      },
      sheetButtons: this.sheetButtons(),
      showFault: (fault) => {
        store.dispatch({ do: "edit", path: fault.file });
        store.dispatch({ do: "drawer", drawer: "file" });
        // Once the drawer is open: it can be scrolled and focused then.
        requestAnimationFrame(() => requestAnimationFrame(() => this.page.editor.goTo(fault)));
      },
      stripTools: {
        choose: (names) => store.dispatch({ do: "strips", names }),
        usual: () => store.dispatch({ do: "strips", names: undefined }),
        tables: (tables) => store.dispatch({ do: "tables", tables }),
        copy: () => void this.copyCsv(),
        save: () => this.saveCsv(),
      },
      changeHeight: (change) => {
        const height_mm = change(store.state.pose.height_mm);
        store.dispatch({ do: "pose", change: { height_mm } });
      },
      redraw: () => this.draw(),
      controls: {
        pose: (change) => store.dispatch({ do: "pose", change }),
        steer: (steering) => store.dispatch({ do: "steer", steering }),
        level: () => store.dispatch({ do: "level" }),
      },
      goTo: (where) => store.dispatch({ do: "pose", change: poseAt(where) }),
      matter: {
        choose: (quantity) => store.dispatch({ do: "matter for", quantity }),
        select: moving.select,
        goTo: (where) => store.dispatch({ do: "pose", change: poseAt(where) }),
      },
      loose: { loosen: (loose) => store.dispatch({ do: "loosen", loose }) },
      points: { select: moving.select, type: moving.type },
      editor: {
        type: (path, text) => store.dispatch({ do: "type", path, text }),
        choose: (path) => store.dispatch({ do: "edit", path }),
      },
      compare: {
        choose: (file) => store.dispatch({ do: "compare", file }),
        add: (files) => void this.opening.added(files),
      },
      toggleDrawer: (drawer) => {
        const open = store.state.drawer === drawer;
        store.dispatch({ do: "drawer", drawer: open ? undefined : drawer });
      },
    };
  }

  private sheetButtons(): HTMLElement[] {
    const large = (): Drawing | undefined =>
      this.findings.current.view?.views.find((view) => view.view === this.store.state.large);
    const truck = () => this.findings.current.view?.truck ?? "";
    return [
      button("View as SVG", () => {
        const drawing = large();
        if (drawing) saveSvg(drawing, truck());
      }),
      button("as PNG", () => {
        const drawing = large();
        if (drawing) void savePng(drawing, truck());
      }),
      button("Shop sheet", async () => {
        const answer = await this.asking.sheet();
        if (answer) saveSvg(answer.drawing, answer.truck);
      }),
    ];
  }

  private async copyCsv(): Promise<void> {
    const { strips } = this.findings.current;
    if (!strips) return;
    const copied = await copyText(csvOf(strips));
    const notice = copied
      ? "The strips are in the clipboard."
      : "This browser lets no page write to the clipboard: save the CSV instead.";
    this.findings.update({ notice });
  }

  private saveCsv(): void {
    const { strips, view } = this.findings.current;
    if (strips && view) saveCsv(strips, view.truck);
  }
}
