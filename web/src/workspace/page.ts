// The page: its parts, and what each shows of state and findings.

import type { Fault, ViewWanted } from "../engine.ts";
import { Announcer, poseWords } from "./announce.ts";
import { ComparePanel } from "./compare_panel.ts";
import { Controls } from "./controls.ts";
import { element, setText, svgElement } from "./dom.ts";
import { Drawers } from "./drawers.ts";
import { Editor } from "./editor.ts";
import type { Findings } from "./findings.ts";
import { HeightTable } from "./height_table.ts";
import { LimitsBoard, limitsNote } from "./limits_board.ts";
import { LoosePanel } from "./loose_panel.ts";
import { MatterPanel, strongest } from "./matter_panel.ts";
import type { PageEvents } from "./page_events.ts";
import { PointsTable } from "./points_table.ts";
import { SheetNotes, TitleStrip } from "./sheet_notes.ts";
import { SheetPanel } from "./sheet_panel.ts";
import { type DrawerName, type State, textsBefore, unsaved } from "./state.ts";
import { StripPanel } from "./strip_panel.ts";
import { StripTools } from "./strip_tools.ts";
import { TopBar } from "./top_bar.ts";

const kNoFaults: readonly Fault[] = [];

export class Page {
  readonly sheet: SheetPanel;
  readonly editor: Editor;
  private readonly topBar: TopBar;
  private readonly sheetNotes: SheetNotes;
  private readonly titleStrip: TitleStrip;
  private readonly stripTools: StripTools;
  private readonly strips: StripPanel;
  private readonly table = new HeightTable();
  private readonly controls: Controls;
  private readonly drawers: Drawers;
  private readonly limits: LimitsBoard;
  private readonly matter: MatterPanel;
  private readonly loose: LoosePanel;
  private readonly points: PointsTable;
  private readonly compare: ComparePanel;
  private readonly announcer = new Announcer();
  private readonly cautions = element("ul", { class: "cautions" });

  constructor(body: HTMLElement, events: PageEvents) {
    this.topBar = new TopBar(events.topBar);
    this.sheet = new SheetPanel(events.sheet);
    this.sheetNotes = new SheetNotes(events.showFault);
    this.titleStrip = new TitleStrip(events.sheetButtons);
    this.stripTools = new StripTools(events.stripTools);
    this.strips = new StripPanel(events.changeHeight, events.redraw);
    this.controls = new Controls(events.controls);
    this.limits = new LimitsBoard(events.goTo);
    this.matter = new MatterPanel(events.matter);
    this.loose = new LoosePanel(events.loose);
    this.points = new PointsTable(events.points);
    this.editor = new Editor(events.editor);
    this.compare = new ComparePanel(events.compare);
    this.drawers = new Drawers(
      [
        { name: "limits", words: "Limits", content: this.limits.element },
        { name: "matter", words: "What matters most", content: this.matter.element },
        { name: "loose", words: "What is loose", content: this.loose.element },
        { name: "points", words: "Points", content: this.points.element },
        { name: "file", words: "File", content: this.editor.element },
        { name: "compare", words: "Compare", content: this.compare.element },
      ],
      events.toggleDrawer,
    );
    body.replaceChildren(this.topBar.element, this.main(), this.footer());
  }

  wantedViews(state: State): readonly ViewWanted[] {
    return this.sheet.wanted(state);
  }

  show(state: State, findings: Findings): void {
    const { view } = findings;
    this.topBar.show(state);
    this.showTitle(state, view?.truck);
    this.sheetNotes.show(state, findings);
    this.titleStrip.show(state, view);
    this.sheet.show(state, {
      present: view,
      before: findings.before,
      other: findings.other,
      influences: state.drawer === "matter" ? strongest(findings.sweep) : [],
    });
    this.showStrips(state, findings);
    this.controls.show(state, view);
    this.showDrawers(state, findings);
    if (view) this.announcer.tell(poseWords(view, state.units));
    this.showCautions(view?.cautions ?? []);
  }

  private showStrips(state: State, { view, strips, before, other }: Findings): void {
    const names = strips?.columns.map((column) => column.name) ?? [];
    this.stripTools.show(
      { before: before !== undefined, other: other?.truck },
      state.tables,
      view?.quantities ?? [],
      names,
    );
    this.strips.element.hidden = state.tables;
    this.table.element.hidden = !state.tables;
    if (state.tables) {
      this.table.show(strips, view?.quantities ?? [], state.units);
    } else {
      this.strips.show({
        strips,
        view,
        before: before?.strips,
        other: other?.strips,
        units: state.units,
        height_mm: view?.drawn.height_mm ?? state.pose.height_mm,
        still: this.sheet.dragging,
      });
    }
  }

  private showDrawers(state: State, findings: Findings): void {
    const { sweep, check, faults, trialFaults } = findings;
    // Warnings do not keep a truck from being drawn.
    const told = faults.length > 0 ? faults : (findings.view?.warnings ?? kNoFaults);
    this.drawers.show(state.drawer, notes(state, findings));
    // What nobody sees need not be up to date.
    const show: Readonly<Record<DrawerName, () => void>> = {
      limits: () => this.limits.show(sweep, state.units),
      matter: () => this.matter.show(sweep, state.matterFor),
      loose: () => this.loose.show(check, state.loose, state.units),
      points: () => {
        const drawing = findings.view?.views[0];
        const tried = [...state.trial.keys()];
        this.points.show(drawing, state.units, state.selected, trialFaults, tried);
      },
      file: () => this.editor.show(state.texts, state.editing, told, unsaved(state)),
      compare: () =>
        this.compare.show(
          state.texts,
          state.file,
          state.other,
          findings.otherFaults,
          findings.compare,
          state.units,
        ),
    };
    if (state.drawer !== undefined) show[state.drawer]();
  }

  private showTitle(state: State, truck: string | undefined): void {
    const changed = unsaved(state).length > 0 ? "* " : "";
    const title = `${changed}${truck ?? "Workspace"} - Axlewright`;
    if (document.title !== title) document.title = title;
  }

  private showCautions(cautions: readonly string[]): void {
    const key = cautions.join("\n");
    if (this.cautions.dataset.key === key) return;
    this.cautions.dataset.key = key;
    this.cautions.replaceChildren(...cautions.map((text) => element("li", {}, text)));
  }

  private main(): HTMLElement {
    return element(
      "main",
      {},
      element(
        "div",
        { class: "table-top" },
        element(
          "div",
          { class: "sheet-holder" },
          element(
            "section",
            { class: "sheet-frame", "aria-label": "Drafting sheet" },
            this.sheet.element,
            this.sheetNotes.element,
            this.titleStrip.element,
          ),
        ),
        element(
          "section",
          { class: "strip-frame", "aria-label": "Height strips" },
          this.stripTools.element,
          this.strips.element,
          this.table.element,
        ),
      ),
      this.controls.element,
      this.drawers.element,
      this.announcer.element,
      hatching(),
    );
  }

  private footer(): HTMLElement {
    const words = element("h2", { class: "visually-hidden" });
    setText(words, "Cautions");
    return element("footer", {}, words, this.cautions);
  }
}

/** The pattern of heights that cannot be had. */
function hatching(): SVGSVGElement {
  const line = svgElement("path", { class: "hatch-line", d: "M-1 7L7 -1M5 13L13 5" });
  const pattern = svgElement("pattern", {
    id: "hatch",
    width: 6,
    height: 6,
    patternUnits: "userSpaceOnUse",
  });
  pattern.append(line);
  const svg = svgElement("svg", { width: 0, height: 0, class: "visually-hidden" });
  svg.append(svgElement("defs", {}, pattern));
  svg.setAttribute("aria-hidden", "true");
  return svg;
}

/** What the fronts of the drawers tell. */
function notes(state: State, findings: Findings): Readonly<Record<DrawerName, string>> {
  const { sweep, check, faults, view, other } = findings;
  const changed = unsaved(state).length > 0 || textsBefore(state) !== undefined;
  const loose = check.answer?.loose.length;
  return {
    limits: limitsNote(sweep),
    matter: "",
    loose: loose === undefined ? "" : loose === 0 ? "nothing" : String(loose),
    points: view ? String(view.points.length) : "",
    file: faults.length > 0 ? `${faults.length} faults` : changed ? "changed" : "no faults",
    compare: other?.truck ?? "",
  };
}
