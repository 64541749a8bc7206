// What a person can do on the page.

import type { Fault, Request } from "../engine.ts";
import type { CompareEvents } from "./compare_panel.ts";
import type { ControlEvents } from "./controls.ts";
import type { EditorEvents } from "./editor.ts";
import type { LooseEvents } from "./loose_panel.ts";
import type { MatterEvents } from "./matter_panel.ts";
import type { PointEvents } from "./points_table.ts";
import type { SheetEvents } from "./sheet_panel.ts";
import type { DrawerName } from "./state.ts";
import type { StripToolEvents } from "./strip_tools.ts";
import type { TopBarEvents } from "./top_bar.ts";

export interface PageEvents {
  readonly topBar: TopBarEvents;
  readonly sheet: SheetEvents;
  readonly sheetButtons: readonly HTMLElement[];
  readonly showFault: (fault: Fault) => void;
  readonly stripTools: StripToolEvents;
  /** From the present height to the next. */
  readonly changeHeight: (change: (height_mm: number) => number) => void;
  /** The room for something has changed. */
  readonly redraw: () => void;
  readonly controls: ControlEvents;
  readonly goTo: (where: Request) => void;
  readonly matter: MatterEvents;
  readonly loose: LooseEvents;
  readonly points: PointEvents;
  readonly editor: EditorEvents;
  readonly compare: CompareEvents;
  readonly toggleDrawer: (drawer: DrawerName) => void;
}
