// The engine in a real browser: from disk, offline, in its worker.

import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { composePage } from "../compose.mjs";
import type { Question } from "../src/engine.ts";
import { differences } from "./agreement/differences.ts";
import { askNatively } from "./agreement/native.ts";
import { desk, truckFiles } from "./agreement/trucks.ts";
import { launchChromium } from "./chromium.ts";
import type {} from "./engine_page/main.ts";

let folder: string;
let address: string;
let browser: Browser;
let page: Page;
const asked: string[] = [];
const errors: string[] = [];

async function openPage(prepare: () => void = () => {}): Promise<Page> {
  const context = await browser.newContext({ offline: true });
  const opened = await context.newPage();
  opened.on("request", (request) => asked.push(request.url()));
  opened.on("pageerror", (error) => errors.push(error.message));
  opened.on("console", (message) => {
    if (message.type() === "error") errors.push(message.text());
  });
  await opened.addInitScript(prepare);
  await opened.goto(address);
  return opened;
}

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "axlewright-"));
  const file = join(folder, "engine.html");
  await writeFile(file, await composePage(fileURLToPath(new URL("engine_page", import.meta.url))));
  address = pathToFileURL(file).href;
  browser = await launchChromium();
  page = await openPage();
  await page.evaluate(
    (texts) => {
      for (const [path, text] of texts) engine.put(path, text);
    },
    [...desk],
  );
});

afterAll(async () => {
  await browser.close();
  await rm(folder, { recursive: true });
});

const questions: Question[] = truckFiles.flatMap((file): Question[] => [
  { ask: "pose", file, height_mm: 140, travel_left_mm: 30, lean_deg: 2, steering_wheel_deg: 150 },
  { ask: "sweep", file, heights: 3 },
  {
    ask: "view",
    file,
    height_mm: 100,
    heights: 11,
    views: [{ view: "front", paper_mm: [297, 210], hidden: true, beside_height_mm: 0 }],
  },
]);

test("answers in the worker are those of the native engine", async () => {
  const native = askNatively(questions);
  const answers = await page.evaluate(
    (all) => Promise.all(all.map((question) => engine.ask(question))),
    questions,
  );
  expect(answers.length).toBe(questions.length);
  for (const [place, answer] of answers.entries()) {
    const wrong = differences(native[place], answer);
    expect(wrong, JSON.stringify(questions[place])).toEqual([]);
  }
});

test("a long question tells how far it has come", async () => {
  const shares = await page.evaluate(async () => {
    const told: number[] = [];
    await engine.ask(
      { ask: "check", file: "trucks/guided.toml" },
      { onProgress: (share) => told.push(share) },
    );
    return told;
  });
  expect(shares.length).toBeGreaterThan(1);
  expect(shares).toEqual([...shares].sort((one, other) => one - other));
  expect(shares.every((share) => share >= 0 && share <= 1)).toBe(true);
});

test("a long question can be given up, and the desk is still laid afterwards", async () => {
  const ended = await page.evaluate(async () => {
    const control = new AbortController();
    const check = { ask: "check", file: "trucks/guided.toml" } as const;
    const given = engine.ask(check, {
      signal: control.signal,
      onProgress: () => control.abort(),
    });
    const reason: unknown = await given.then(
      () => "answered",
      (error: unknown) => error,
    );
    return { reason: String(reason), after: await engine.ask(check) };
  });
  expect(ended.reason).toContain("AbortError");
  expect(ended.after).toMatchObject({ ask: "check", soundness: "sound" });
});

test("where WebAssembly is off an answer says so", async () => {
  const without = await openPage(() => Reflect.deleteProperty(globalThis, "WebAssembly"));
  const answer = await without.evaluate(() => engine.ask({ ask: "start", layout: "plain" }));
  expect(answer).toMatchObject({
    faults: [{ severity: "error", what: expect.stringContaining("WebAssembly") }],
  });
});

test("nothing was fetched, and nothing complained", () => {
  expect(asked.filter((url) => !url.startsWith("file:") && !url.startsWith("blob:"))).toEqual([]);
  expect(errors).toEqual([]);
});
