// The customer page for everybody: phone, dark, keyboard, less motion, print, no scripts, no WebAssembly.

import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { found } from "./axe.ts";
import { launchChromium } from "./chromium.ts";
import { allDrawn, becomes, chapterDrawn, PageMaker } from "./customer_page.ts";

let maker: PageMaker;
/** The whole page, for who only looks at it. */
let whole: Page;
beforeAll(async () => {
  maker = await PageMaker.start(await launchChromium());
  whole = (await maker.open({ data: {} })).page;
  await allDrawn(whole);
});
afterAll(() => maker.stop());

function overflow(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
}

describe("the accessibility checker", () => {
  for (const colorScheme of ["light", "dark"] as const) {
    it(`finds nothing, in the ${colorScheme}, on a phone and on a laptop`, async () => {
      await whole.emulateMedia({ colorScheme });
      expect(await found(whole)).toEqual([]);
      await whole.setViewportSize({ width: 1280, height: 800 });
      expect(await found(whole)).toEqual([]);
      await whole.setViewportSize({ width: 360, height: 740 });
    });
  }

  it("finds nothing where only recorded pictures can be shown", async () => {
    const prepare = () => Reflect.deleteProperty(globalThis, "WebAssembly");
    const { page } = await maker.open({ data: { pictures: [kPicture] }, prepare });
    await page.waitForSelector(".recorded");
    expect(await found(page)).toEqual([]);
  });
});

const kPicture = {
  truck: 0,
  height_mm: 120,
  svg: '<svg xmlns="http://www.w3.org/2000/svg" width="80" height="40"><script>document.title="run"</script><path d="M0 0h80v40z"/></svg>',
  words: "Steering wheel 9 degrees to the left.",
};

describe("screens", () => {
  it("nothing sticks out, however narrow or wide", async () => {
    for (const width of [320, 768, 1280, 360]) {
      await whole.setViewportSize({ width, height: 740 });
      expect(await overflow(whole)).toBe(0);
    }
  });

  it("on a phone both wheels, both trucks and the slider are there without scrolling", async () => {
    const { page } = await maker.open({ data: {} });
    await chapterDrawn(page, "raise");
    for (const part of [".wheel-words", ".picture", "input"]) {
      const box = await page.locator(`#raise ${part}`).first().boundingBox();
      expect(box && box.y + box.height <= 740 ? part : `${part} is below`).toBe(part);
    }
  });

  it("every control is large enough for a thumb", async () => {
    const heights = await whole
      .locator("input[type=range], button, .choice label, summary")
      .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height));
    expect(heights.length).toBeGreaterThan(30);
    expect(Math.min(...heights)).toBeGreaterThanOrEqual(44);
  });

  it("is dark where the system is", async () => {
    const light = (await maker.open({ data: {} })).page;
    const dark = (await maker.open({ data: {}, context: { colorScheme: "dark" } })).page;
    const lightness = (page: Page) =>
      page.evaluate(() => {
        const [red] = getComputedStyle(document.body).backgroundColor.match(/\d+/) ?? [];
        return Number(red);
      });
    expect(await lightness(light)).toBeGreaterThan(200);
    expect(await lightness(dark)).toBeLessThan(50);
  });
});

describe("by keyboard alone", () => {
  it("moves the truck, with the focus to be seen", async () => {
    const { page } = await maker.open({ data: {} });
    await chapterDrawn(page, "raise");
    const slider = page.locator("#raise").getByRole("slider");
    for (let i = 0; i < 10; i += 1) {
      await page.keyboard.press("Tab");
      if (await slider.evaluate((one) => one === document.activeElement)) break;
    }
    expect(await slider.evaluate((one) => one === document.activeElement)).toBe(true);
    expect(await slider.evaluate((one) => getComputedStyle(one).outlineStyle)).toBe("solid");
    const words = () => page.locator("#raise .for-screen .wheel-words").first().textContent();
    await page.keyboard.press("Home");
    await becomes(words).toBe("Centred");
    await page.keyboard.press("End");
    await becomes(words).toBe("54 degrees to the left");
    await page.keyboard.press("Home");
    await becomes(words).toBe("Centred");
    for (let i = 0; i < 8; i += 1) await page.keyboard.press("PageUp");
    await becomes(words).toMatch(/to the left$/);
  });

  it("names every slider and says where it stands", async () => {
    const told = await whole
      .locator("input[type=range]")
      .evaluateAll((all) =>
        all.map((one) => [
          (one as HTMLInputElement).labels?.[0]?.textContent ?? "",
          one.getAttribute("aria-valuetext") ?? "",
        ]),
      );
    expect(told.length).toBeGreaterThan(10);
    for (const words of told.flat()) expect(words).toMatch(/\S/);
    const wheel = whole.locator("#raise .for-screen .steering-wheel").first();
    expect(await wheel.getAttribute("aria-label")).toBe(
      "Steering wheel with Plain bars, mismatched: 54 degrees to the left",
    );
  });

  it("tells a screen reader what a slider did, once it rests", async () => {
    const { page } = await maker.open({ data: {} });
    await chapterDrawn(page, "raise");
    await page.locator("#raise").getByRole("slider").focus();
    await page.keyboard.press("Home");
    await becomes(() => page.locator("#raise [role=status]").textContent()).toBe(
      "Plain bars, mismatched: steering wheel centred, axle in the middle. Guided bars: steering wheel centred, axle in the middle.",
    );
  });
});

describe("play", () => {
  const place = (page: Page) =>
    page
      .locator("#raise")
      .getByRole("slider")
      .evaluate((one) => (one as HTMLInputElement).valueAsNumber);

  it("raises the truck once by itself, and then on request until it is stopped", async () => {
    const { page } = await maker.open({ data: {}, context: { reducedMotion: "no-preference" } });
    await chapterDrawn(page, "raise");
    const button = page.locator("#raise .play");
    await becomes(() => place(page)).toBe(235);
    await becomes(() => button.textContent()).toBe("Play: raise and lower");
    await button.click();
    expect(await button.textContent()).toBe("Stop");
    await becomes(() => place(page)).toBeLessThan(150);
    await button.click();
    const stopped = await place(page);
    await page.waitForTimeout(300);
    expect(await place(page)).toBe(stopped);
  });

  it("stops when the slider is taken", async () => {
    const { page } = await maker.open({ data: {}, context: { reducedMotion: "no-preference" } });
    await chapterDrawn(page, "raise");
    await page.locator("#raise").getByRole("slider").focus();
    await page.keyboard.press("End");
    expect(await page.locator("#raise .play").textContent()).toBe("Play: raise and lower");
    await page.waitForTimeout(300);
    expect(await place(page)).toBe(235);
  });

  it("moves nothing by itself for who asked for less motion: the button goes in steps", async () => {
    const { page } = await maker.open({ data: {} });
    await chapterDrawn(page, "raise");
    await becomes(() => place(page)).toBe(235);
    const button = page.locator("#raise .play");
    expect(await button.textContent()).toBe("Next height");
    await button.click();
    expect(await place(page)).toBe(0);
    await page.waitForTimeout(300);
    expect(await place(page)).toBe(0);
    await button.click();
    expect(await place(page)).toBeCloseTo(235 / 4, 0);
  });
});

describe("on paper", () => {
  it("every idea has its picture, no slider, and the cautions", async () => {
    await whole.setViewportSize({ width: 720, height: 1000 });
    await whole.emulateMedia({ media: "print" });
    expect(await whole.locator(".controls:visible, .for-screen:visible").count()).toBe(0);
    const hidden = await whole
      .locator(".for-paper .sheet")
      .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height === 0));
    expect(hidden.length).toBeGreaterThan(10);
    expect(hidden).not.toContain(true);
    expect(await whole.locator("#raise .for-paper .wheel-words").first().textContent()).toBe(
      "54 degrees to the left",
    );
    expect(await whole.locator("#cautions li:visible").count()).toBeGreaterThan(4);
    expect(await overflow(whole)).toBe(0);
    const paper = await whole.pdf({ format: "A4" });
    expect(paper.byteLength).toBeGreaterThan(20_000);
    await whole.emulateMedia({ media: "screen" });
    await whole.setViewportSize({ width: 360, height: 740 });
  });
});

describe("where the engine cannot run", () => {
  const lacks: readonly (readonly [string, () => void, RegExp])[] = [
    [
      "WebAssembly",
      () => void Reflect.deleteProperty(globalThis, "WebAssembly"),
      /WebAssembly turned off/,
    ],
    ["workers", () => void Reflect.deleteProperty(globalThis, "Worker"), /workers turned off/],
    [
      "a working module",
      () => {
        WebAssembly.compile = () => Promise.reject(new Error("not allowed here"));
      },
      /cannot answer here .*not allowed here/,
    ],
  ];
  for (const [what, prepare, told] of lacks) {
    it(`without ${what} it says so and shows what was recorded`, async () => {
      const { page, errors } = await maker.open({ data: { pictures: [kPicture] }, prepare });
      await becomes(() => page.getByRole("alert").textContent()).toMatch(told);
      const picture = page.locator(".pair .recorded");
      expect(await picture.count()).toBe(1);
      expect(await picture.evaluate((one) => (one as HTMLImageElement).naturalWidth)).toBe(80);
      expect(await page.locator(".pair figcaption").textContent()).toBe(
        "plain-mismatched at height 120 mm. Steering wheel 9 degrees to the left.",
      );
      expect(await page.title()).not.toBe("run");
      expect(await page.getByRole("slider").count()).toBe(0);
      expect(await page.locator("#cautions").textContent()).toContain(
        "Steering and suspension can kill",
      );
      expect(errors).toEqual([]);
    });
  }

  it("says what is wrong with a file, in the engine's words", async () => {
    const files = { "a.toml": "format = 1\nunits = 'furlong'\n", "b.toml": "" };
    const { page } = await maker.open({ data: { files, trucks: ["a.toml", "b.toml"] } });
    await becomes(() => page.getByRole("alert").textContent()).toMatch(
      /cannot answer here \(.*a\.toml:2: these units are not known/,
    );
  });

  it("says what is wrong with a page that does not carry its trucks", async () => {
    const { page } = await maker.open({ data: { trucks: ["a.toml", "b.toml"], files: {} } });
    await becomes(() => page.getByRole("alert").textContent()).toBe(
      "the page does not carry the truck file a.toml",
    );
  });

  it("tells the idea in words where there are no scripts", async () => {
    const { page } = await maker.open({ data: {}, context: { javaScriptEnabled: false } });
    const words = await page.locator(".noscript").textContent();
    expect(words).toContain("its end swings on an arc");
    expect(words).toContain("Steering and suspension can kill");
  });
});
