// The customer page in a real browser, with the data that the program would put into it, and the engine beside it.

import { readFileSync } from "node:fs";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { expect } from "vitest";
import { composePage } from "../compose.mjs";
import { startCore } from "../src/engine/core.ts";
import type { AnswerTo, Question } from "../src/engine.ts";
import { desk } from "./agreement/trucks.ts";

/** As the program writes it into the template. */
export interface ShownData {
  readonly trucks?: readonly string[];
  readonly files?: Readonly<Record<string, string>>;
  readonly shop?: { readonly name: string; readonly words: string };
  readonly units?: "mm" | "inch";
  readonly pictures?: readonly unknown[];
}

const kPlace = 'type="application/json">null<';

function withData(template: string, data: ShownData): string {
  if (template.split(kPlace).length !== 2)
    throw new Error("the template has no place for its data");
  const whole = {
    files: Object.fromEntries(desk),
    trucks: ["trucks/plain-mismatched.toml", "trucks/guided.toml"],
    shop: { name: "", words: "" },
    units: "mm",
    pictures: [],
    ...data,
  };
  const text = JSON.stringify(whole).replaceAll("<", "\\u003c");
  return template.replace(kPlace, () => `type="application/json">${text}<`);
}

export interface Opened {
  readonly page: Page;
  /** What went to the console as an error, and exceptions that nobody caught. */
  readonly errors: string[];
  /** What was asked of any network or disk. */
  readonly requests: string[];
  /** Size of the file. */
  readonly bytes: number;
}

export interface OpenOptions {
  /** Nothing: the template as it is. */
  readonly data?: ShownData;
  readonly context?: BrowserContextOptions;
  /** Done in the page before its scripts. */
  readonly prepare?: () => void;
}

export class PageMaker {
  private constructor(
    readonly template: string,
    private readonly folder: string,
    private readonly browser: Browser,
  ) {}

  static async start(browser: Browser): Promise<PageMaker> {
    const source = fileURLToPath(new URL("../src/page", import.meta.url));
    const folder = await mkdtemp(join(tmpdir(), "axlewright-page-"));
    return new PageMaker(await composePage(source), folder, browser);
  }

  async stop(): Promise<void> {
    await this.browser.close();
    await rm(this.folder, { recursive: true });
  }

  /** From disk, offline; without motion of its own unless the context says otherwise. */
  async open({ data, context, prepare }: OpenOptions = {}): Promise<Opened> {
    const file = join(this.folder, "why.html");
    const text = data ? withData(this.template, data) : this.template;
    await writeFile(file, text);
    const made = await this.browser.newContext({
      offline: true,
      reducedMotion: "reduce",
      viewport: { width: 360, height: 740 },
      ...context,
    });
    const page = await made.newPage();
    const errors: string[] = [];
    const requests: string[] = [];
    page.on("request", (request) => requests.push(request.url()));
    page.on("pageerror", (error) => errors.push(error.message));
    page.on("console", (message) => {
      if (message.type() === "error") errors.push(message.text());
    });
    if (prepare) await page.addInitScript(prepare);
    await page.goto(pathToFileURL(file).href);
    return { page, errors, requests, bytes: Buffer.byteLength(text) };
  }
}

export function becomes(read: () => Promise<unknown>) {
  return expect.poll(read, { timeout: 45_000, interval: 50 });
}

/** Waits until the chapter stands there with its picture. */
export async function chapterDrawn(page: Page, id: string): Promise<void> {
  await page.waitForSelector(`#${id} .for-screen .drawing .stroke`, {
    state: "attached",
    timeout: 45_000,
  });
}

/** Waits until every chapter has its picture and the page is whole. */
export async function allDrawn(page: Page): Promise<void> {
  await page.waitForSelector("#cautions", { timeout: 45_000 });
  await page.waitForFunction(
    () =>
      [...document.querySelectorAll(".for-screen .sheet, .for-paper .sheet")].every((sheet) =>
        sheet.querySelector(".drawing .stroke"),
      ),
    undefined,
    { timeout: 45_000 },
  );
}

/** Moves a slider as a finger does: the browser's own input event, with the place that it snaps to. */
export function slide(page: Page, chapter: string, name: string, value: number): Promise<number> {
  const input = page.locator(`#${chapter}`).getByRole("slider", { name, exact: true });
  return input.evaluate((element, to) => {
    const range = element as HTMLInputElement;
    range.value = String(to);
    range.dispatchEvent(new Event("input", { bubbles: true }));
    return range.valueAsNumber;
  }, value);
}

/** The engine with the example trucks on its desk. */
export async function engineOfExamples() {
  const path = fileURLToPath(new URL("../../build/wasm/engine.wasm", import.meta.url));
  const core = await startCore(await WebAssembly.compile(readFileSync(path)), () => {});
  for (const [name, text] of desk) core.put(name, text);
  return {
    ask<Q extends Question>(question: Q): AnswerTo<Q> {
      const answer = JSON.parse(core.ask(JSON.stringify(question)));
      expect(answer.faults).toBeUndefined();
      return answer;
    },
  };
}
