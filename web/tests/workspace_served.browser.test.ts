// The workspace as `axlewright serve` hands it out: saving into real files.

import { type ChildProcess, spawn } from "node:child_process";
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { launchChromium } from "./chromium.ts";
import {
  becomes,
  closePages,
  dragPoint,
  drawn,
  editorText,
  openDrawer,
  openWorkspace,
} from "./workspace_page.ts";

const kRoot = fileURLToPath(new URL("../../", import.meta.url));

let browser: Browser;
let folder: string;
let program: ChildProcess;
let address: string;

/** Starts the program on a copy of the example trucks, on a port that is free; its address is in what it prints. */
function serve(): Promise<string> {
  program = spawn(join(kRoot, "build/release/axlewright"), ["serve", folder, "--port", "0"], {
    cwd: kRoot,
  });
  return new Promise((resolve, reject) => {
    let said = "";
    const hear = (part: Buffer) => {
      said += part;
      const found = said.match(/http:\/\/127\.0\.0\.1:\d+\//);
      if (found) resolve(found[0]);
    };
    program.stdout?.on("data", hear);
    program.stderr?.on("data", hear);
    program.on("exit", (status) => reject(new Error(`serve ended with ${status}: ${said}`)));
  });
}

beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(async () => {
  await browser.close();
});
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "axlewright-workspace-"));
  cpSync(join(kRoot, "trucks"), folder, { recursive: true });
  address = await serve();
});
afterEach(async () => {
  await closePages(browser);
  program.removeAllListeners("exit");
  program.kill("SIGINT");
  rmSync(folder, { recursive: true });
});

const kTruck = "plain-mismatched.toml";

function onDisk(path: string): string {
  return readFileSync(join(folder, path), "utf8");
}

async function openTruck(): Promise<{ page: Page; errors: readonly string[] }> {
  const opened = await openWorkspace(browser, { address });
  await choose(opened.page);
  return opened;
}

async function choose(page: Page): Promise<void> {
  await page.locator(".top-bar select").first().selectOption(kTruck);
  await becomes(() => page.locator(".cell-truck").textContent()).toBe("Plain bars, mismatched");
  await drawn(page);
}

async function save(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Save", exact: true }).first().click();
}

describe("served", () => {
  it("lists the folder's trucks and opens one that is whole", async () => {
    const { page, errors } = await openWorkspace(browser, { address });
    const files = await page.locator(".top-bar select").first().locator("option").allTextContents();
    expect(files).toContain("guided.toml");
    expect(files).toContain("kits/keeper.toml");
    // Not the platform, which comes first in the list: nothing holds its axle.
    expect(await page.locator(".cell-truck").textContent()).toBe("Four-bar, plain drag link");
    expect(errors).toEqual([]);
  });

  it("says that a folder has no truck file", async () => {
    for (const file of readdirSync(folder)) rmSync(join(folder, file), { recursive: true });
    const page = await (await browser.newContext()).newPage();
    await page.goto(address);
    await becomes(() => page.locator(".sheet-note").textContent()).toContain("no truck file");
  });

  it("saves a drag: shows what changes first, and writes that number alone", async () => {
    const { page, errors } = await openTruck();
    const before = onDisk(kTruck);
    await dragPoint(page, "track_bar_axle", 0, -10);
    await becomes(() => page.locator(".saved").textContent()).toBe("1 file not saved");
    expect(onDisk(kTruck)).toBe(before);
    await save(page);
    const changes = page.locator("dialog .changes tbody tr");
    expect(await changes.count()).toBe(1);
    expect(await changes.textContent()).toContain("track_bar_axle = ");
    await page.locator("dialog button.primary").click();
    await becomes(() => page.locator(".saved").textContent()).toBe("");
    const after = onDisk(kTruck);
    const [was, is] = [before.split("\n"), after.split("\n")];
    const changed = is.filter((line, i) => line !== was[i]);
    expect(is).toHaveLength(was.length);
    expect(changed).toHaveLength(1);
    // What is beside the number stands as it was.
    expect(changed[0]).toMatch(
      /^track_bar_axle = \{ on = "axle", at = \[-90, -430(\.0)?, \d+(\.\d)?\], plus_minus = "2 mm" \}$/,
    );
    await page.reload();
    await drawn(page);
    await choose(page);
    await openDrawer(page, "File");
    expect(await editorText(page, "Plain bars")).toBe(after);
    expect(errors).toEqual([]);
  });

  it("warns before it saves a layer that other trucks share", async () => {
    const { page } = await openTruck();
    await dragPoint(page, "pitman_ball", 0, -8);
    await becomes(() => page.locator(".saved").textContent()).toBe("1 file not saved");
    await save(page);
    const words = await page.locator("dialog").textContent();
    expect(words).toContain("dunlin-35.toml");
    expect(words).toContain("Also a layer of");
    expect(words).toContain("guided.toml");
    await page.getByRole("button", { name: "Not yet" }).click();
    expect(await page.locator("dialog").isVisible()).toBe(false);
  });

  it("shows a conflict where the file changed underneath, and loses neither", async () => {
    const { page, errors } = await openTruck();
    const theirs = onDisk(kTruck).replace("[-90, 470, 640]", "[-90, 470, 655]");
    await dragPoint(page, "track_bar_axle", 0, -10);
    await becomes(() => page.locator(".saved").textContent()).toBe("1 file not saved");
    writeFileSync(join(folder, kTruck), theirs);
    await save(page);
    await page.locator("dialog button.primary").click();
    await becomes(() => page.locator("dialog h2").first().textContent()).toContain(
      "has changed underneath",
    );
    expect(onDisk(kTruck)).toBe(theirs);
    await page.getByRole("button", { name: "Take what is there" }).click();
    await page.getByRole("button", { name: "Close" }).click();
    await openDrawer(page, "File");
    expect(await editorText(page, "Plain bars")).toBe(theirs);
    await page.getByRole("button", { name: "Undo" }).click();
    await becomes(() => page.locator(".editor-text").inputValue()).toContain("[-90, 470, 640]");
    // Now mine goes over it, knowingly.
    await save(page);
    await page.locator("dialog button.primary").click();
    await becomes(() => page.locator(".saved").textContent()).toBe("");
    expect(onDisk(kTruck)).toContain("[-90, 470, 640]");
    // A conflict is an answer of the server that a browser reports by itself; nothing else may be there.
    expect(errors.filter((error) => !error.includes("409"))).toEqual([]);
  });

  it("warns before leaving with changes that are not saved", async () => {
    const { page } = await openTruck();
    await page.locator('[data-point="track_bar_axle"]').focus();
    await page.keyboard.press("ArrowUp");
    await becomes(() => page.locator(".saved").textContent()).toBe("1 file not saved");
    const asked: string[] = [];
    page.on("dialog", (dialog) => {
      asked.push(dialog.type());
      void dialog.accept();
    });
    const closed = page.waitForEvent("close");
    await page.close({ runBeforeUnload: true });
    await closed;
    expect(asked).toEqual(["beforeunload"]);
  });
});
