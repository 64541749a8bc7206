// The customer page: what is in it, in order.

import { embeddedEngine } from "../engine/embedded.ts";
import type { Engine } from "../engine.ts";
import { kTitle, raisePair } from "./chapters/raise.ts";
import { cautions, kCautions } from "./chapters/recap.ts";
import { html } from "./dom.ts";
import { embeddedPage } from "./embedded_page.ts";
import { kExampleFiles } from "./examples.ts";
import { footer, header } from "./frame.ts";
import { messageOf, openAll } from "./opening_all.ts";
import type { PageData } from "./page_data.ts";
import { Reader } from "./reader.ts";
import { recordedIdeas, recordedPictures } from "./recorded.ts";
import { storyOf } from "./story/story.ts";
import { meetTruck, type Show } from "./trucks.ts";

const main = html("main");

function layOut(engine: Engine, data: PageData): void {
  for (const [path, text] of Object.entries({ ...data.files, ...kExampleFiles })) {
    engine.put(path, text);
  }
}

/** What the browser lacks, in words; empty where it has all. */
function lacking(): string {
  if (typeof WebAssembly !== "object") return "This browser has WebAssembly turned off";
  if (typeof Worker !== "function") return "This browser has workers turned off";
  return "";
}

async function live(data: PageData): Promise<void> {
  const reader = new Reader(data.units);
  document.body.prepend(header(data.shop));
  main.replaceChildren(
    html("h1", {}, kTitle),
    html("p", {}, "One moment: the program in this page starts."),
  );
  const engine = embeddedEngine();
  layOut(engine, data);
  const [first, second] = data.trucks;
  const show: Show = {
    engine,
    reader,
    pair: [await meetTruck(engine, first), await meetTruck(engine, second)],
  };
  const raised = raisePair(show);
  main.replaceChildren(raised.element);
  await openAll([raised]);
  const story = await storyOf(show);
  raised.element.append(story.verdict);
  main.append(...story.chapters);
  await openAll(story.openings);
}

function recorded(data: PageData, why: string): void {
  document.body.prepend(header(data.shop));
  main.replaceChildren(
    failed(
      `${why}, so nothing here can be moved or computed. The pictures were recorded when the page was made; seen from the front, the truck’s left is on your right.`,
    ),
    recordedPictures(data),
    ...recordedIdeas(),
    cautions(kCautions),
  );
}

function failed(words: string): HTMLElement {
  return html(
    "div",
    {},
    html("h1", {}, kTitle),
    html("p", { class: "failed", role: "alert" }, words),
  );
}

/** The page with what it can do here: computing, else what was recorded, else why there is nothing. */
async function start(): Promise<void> {
  const weight = new Blob([document.documentElement.outerHTML]).size;
  document.body.append(main, footer(weight));
  const data = embeddedPage();
  const why = lacking();
  if (why !== "") return recorded(data, why);
  try {
    await live(data);
  } catch (error) {
    document.querySelector("header")?.remove();
    recorded(data, `The engine cannot answer here (${messageOf(error)})`);
  }
}

/** What is folded away on the screen is not on paper. */
addEventListener("beforeprint", () => {
  for (const folded of document.querySelectorAll("details")) folded.open = true;
});

start().catch((error: unknown) => main.replaceChildren(failed(messageOf(error))));
