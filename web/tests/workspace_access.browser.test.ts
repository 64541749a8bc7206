// For everybody: an accessibility checker, narrow and dark screens, large text.

import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { found } from "./axe.ts";
import { launchChromium } from "./chromium.ts";
import { becomes, closePages, drawn, enter, openDrawer, openWorkspace } from "./workspace_page.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await launchChromium();
});
afterEach(async () => {
  await closePages(browser);
});
afterAll(async () => {
  await browser.close();
});

const kDrawers = ["Limits", "What matters", "What is loose", "Points", "File", "Compare"];

describe("the accessibility checker", () => {
  for (const dark of [false, true]) {
    it(`finds nothing, in the ${dark ? "dark" : "light"}, whatever drawer is open`, async () => {
      const { page } = await openWorkspace(browser, { dark });
      await becomes(() =>
        page.locator(".drawer-front", { hasText: "loose" }).textContent(),
      ).toContain("nothing");
      expect(await found(page)).toEqual([]);
      for (const drawer of kDrawers) {
        await openDrawer(page, drawer);
        await page.waitForTimeout(100);
        expect(await found(page)).toEqual([]);
      }
      await page.getByRole("button", { name: "Table" }).click();
      await page.locator(".height-table tbody tr").first().waitFor();
      expect(await found(page)).toEqual([]);
    });
  }

  it("finds nothing where a pose cannot be had and a text has faults", async () => {
    const { page } = await openWorkspace(browser);
    await enter(page, "Height", "900");
    await becomes(() => page.locator(".sheet-note").textContent()).toContain("no pose");
    expect(await found(page)).toEqual([]);
    await openDrawer(page, "File");
    await page.locator(".editor-text").fill("nonsense");
    await becomes(() => page.locator(".note-list li").count()).toBeGreaterThan(0);
    expect(await found(page)).toEqual([]);
  });
});

/** Whether something sticks out of the page to the right. */
function overflows(page: Page): Promise<boolean> {
  return page.evaluate(
    () => document.documentElement.scrollWidth > document.documentElement.clientWidth,
  );
}

describe("screens", () => {
  it("at 1280 by 800 what leads is there without scrolling", async () => {
    const { page } = await openWorkspace(browser);
    for (const part of [".sheet-frame", ".strip-frame", ".controls", ".drawer-fronts"]) {
      const box = await page.locator(part).boundingBox();
      expect(box && box.y >= 0 && box.y + box.height <= 800 ? part : `${part} is cut off`).toBe(
        part,
      );
    }
    expect(await overflows(page)).toBe(false);
  });

  it("at 768 everything is there, one under the other, and nothing sticks out", async () => {
    const { page, errors } = await openWorkspace(browser, { width: 768, height: 1024 });
    expect(await overflows(page)).toBe(false);
    const sheet = await page.locator(".sheet-frame").boundingBox();
    const strips = await page.locator(".strip-frame").boundingBox();
    expect(strips?.y).toBeGreaterThan((sheet?.y ?? 0) + (sheet?.height ?? 0) - 1);
    expect(errors).toEqual([]);
  });

  it("at 200 % of 1280 by 800 nothing sticks out", async () => {
    // Zoomed twice, the page has half the pixels.
    const { page } = await openWorkspace(browser, { width: 640, height: 400 });
    expect(await overflows(page)).toBe(false);
    await openDrawer(page, "Points");
    expect(await overflows(page)).toBe(false);
  });

  it("is dark where the system is, and light where the person says so", async () => {
    const { page } = await openWorkspace(browser, { dark: true });
    const paper = () =>
      page.locator(".sheet-frame").evaluate((one) => getComputedStyle(one).backgroundColor);
    const dark = await paper();
    await page.getByLabel("Theme").selectOption("light");
    await becomes(paper).not.toBe(dark);
    await page.reload();
    await drawn(page);
    expect(await paper()).not.toBe(dark);
  });

  it("tells a screen reader the pose once it has come to rest", async () => {
    const { page } = await openWorkspace(browser);
    await enter(page, "Height", "235");
    await becomes(() => page.locator('main > [aria-live="polite"]').textContent()).toBe(
      "Height 235.0 mm: steering wheel off centre 53.7 deg left; axle walk, sideways 61.3 mm left; axle walk, fore-aft 43.8 mm back.",
    );
  });
});
