// The workspace in a real browser, and the engine beside it, asked the same.

import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { expect } from "vitest";
import { startCore } from "../src/engine/core.ts";
import type { AnswerTo, Question } from "../src/engine.ts";
import { kExamples } from "../src/workspace/examples.ts";

export const kWorkspace = new URL("../../build/web/workspace.html", import.meta.url).href;

export interface OpenOptions {
  readonly address?: string;
  readonly width?: number;
  readonly height?: number;
  readonly dark?: boolean;
  /** Whether the person lets things move by themselves. */
  readonly motion?: boolean;
}

export interface OpenPage {
  readonly page: Page;
  /** What went to the console as an error, and exceptions that nobody caught. */
  readonly errors: readonly string[];
}

/** A busy machine takes its time. */
const kPatience_ms = 40_000;

/** The workspace with a truck drawn. */
export async function openWorkspace(
  browser: Browser,
  {
    address = kWorkspace,
    width = 1280,
    height = 800,
    dark = false,
    motion = false,
  }: OpenOptions = {},
): Promise<OpenPage> {
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme: dark ? "dark" : "light",
    reducedMotion: motion ? "no-preference" : "reduce",
    acceptDownloads: true,
  });
  context.setDefaultTimeout(kPatience_ms);
  const page = await context.newPage();
  const errors: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") errors.push(message.text());
  });
  page.on("pageerror", (error) => errors.push(error.message));
  await page.goto(address);
  await drawn(page);
  return { page, errors };
}

/** What a test has opened; a page that stays open goes on computing. */
export async function closePages(browser: Browser): Promise<void> {
  for (const context of browser.contexts()) await context.close();
}

/** Waits until the large view shows a truck and strips are there. */
export async function drawn(page: Page): Promise<void> {
  await page.waitForSelector(".view.is-large .handle");
  await page.waitForSelector(".strip-plot .curve-present[d^='M']", { state: "attached" });
}

/** What the page says of a strip at the present pose. */
export async function stripValue(page: Page, words: string): Promise<string> {
  const strip = page.locator(".strip", {
    has: page.locator(".strip-name", { hasText: new RegExp(`^${words}$`) }),
  });
  return (await strip.locator(".strip-value").textContent()) ?? "";
}

export function becomes(read: () => Promise<unknown>) {
  return expect.poll(read, { timeout: kPatience_ms, interval: 50 });
}

/** Types into the field with that label and presses Enter. */
export async function enter(page: Page, label: string, text: string): Promise<void> {
  const field = page.getByRole("textbox", { name: label, exact: true });
  await field.fill(text);
  await field.press("Enter");
}

/** The engine with the example trucks on its desk. */
export async function engineOfExamples() {
  const path = fileURLToPath(new URL("../../build/wasm/engine.wasm", import.meta.url));
  const core = await startCore(await WebAssembly.compile(readFileSync(path)), () => {});
  for (const [name, text] of kExamples) core.put(name, text);
  return {
    put: core.put,
    ask<Q extends Question>(question: Q): AnswerTo<Q> {
      const answer = JSON.parse(core.ask(JSON.stringify(question)));
      expect(answer.faults).toBeUndefined();
      return answer;
    },
  };
}

/** Where on the screen a point of the large view is. */
export async function handlePlace(page: Page, point: string): Promise<[number, number]> {
  const box = await page
    .locator(`.view.is-large [data-point="${point}"] .handle-mark`)
    .boundingBox();
  if (!box) throw new Error(`${point} is not drawn`);
  return [box.x + box.width / 2, box.y + box.height / 2];
}

/** Drags a point on the screen in a few steps. */
export async function dragPoint(
  page: Page,
  point: string,
  right: number,
  down: number,
): Promise<void> {
  const [x, y] = await handlePlace(page, point);
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let step = 1; step <= 5; step += 1) {
    await page.mouse.move(x + (right * step) / 5, y + (down * step) / 5);
  }
  await page.mouse.up();
}

export async function openDrawer(page: Page, words: string): Promise<void> {
  const front = page.locator(".drawer-front", { hasText: words });
  if ((await front.getAttribute("aria-expanded")) === "false") await front.click();
}

/** The text in the editor, once it is that of the file that has those words in it. */
export async function editorText(page: Page, words: string): Promise<string> {
  const area = page.locator(".editor-text");
  await becomes(() => area.inputValue()).toContain(words);
  return area.inputValue();
}
