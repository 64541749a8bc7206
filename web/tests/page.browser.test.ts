// The customer page: what it says is what the engine answers, what it draws is where the engine puts it.

import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Drawing } from "../src/draw/drawing.ts";
import { axlePlace, sentence, wheelPlace } from "../src/page/say/words.ts";
import { launchChromium } from "./chromium.ts";
import {
  allDrawn,
  becomes,
  chapterDrawn,
  engineOfExamples,
  PageMaker,
  slide,
} from "./customer_page.ts";

let maker: PageMaker;
let engine: Awaited<ReturnType<typeof engineOfExamples>>;
/** The whole page: what one test moves, no other looks at. */
let whole: Page;
beforeAll(async () => {
  maker = await PageMaker.start(await launchChromium());
  engine = await engineOfExamples();
  whole = (await maker.open({ data: {} })).page;
  await allDrawn(whole);
});
afterAll(() => maker.stop());

const kTrucks = ["trucks/plain-mismatched.toml", "trucks/guided.toml"];

function wheelWords(page: Page, chapter = "raise"): Promise<string[]> {
  return page.locator(`#${chapter} .for-screen .wheel-words`).allTextContents();
}

/** What the engine says of both trucks going straight at a height, in the page's words. */
function asked(height_mm: number, unit: "mm" | "inch" = "mm") {
  const values = kTrucks.map((file) => engine.ask({ ask: "pose", file, height_mm }).values);
  return {
    wheels: values.map((of) =>
      sentence(wheelPlace(of?.steering_wheel_off_centre_deg ?? Number.NaN)),
    ),
    axles: values.map((of) => `Axle ${axlePlace(of?.axle_walk_side_mm ?? Number.NaN, unit)}`),
  };
}

describe("opened from disk with the network off", () => {
  it("asks for nothing but itself, says nothing on the console, and is one file under 3 MB", async () => {
    const { page, errors, requests, bytes } = await maker.open({ data: {} });
    await allDrawn(page);
    expect(errors).toEqual([]);
    expect(requests.filter((url) => !url.startsWith("blob:"))).toEqual([page.url()]);
    expect(bytes).toBeLessThan(3_000_000);
    const told = (bytes / 1e6).toFixed(1);
    expect(await page.locator("footer").textContent()).toContain(`one file of ${told} MB`);
  });

  it("shows the examples where no truck was put in", async () => {
    const { page, errors } = await maker.open();
    await becomes(() => wheelWords(page)).toEqual(asked(235).wheels);
    expect(errors).toEqual([]);
  });
});

describe("the slider at the top", () => {
  it("turns the wheels as far as the engine says", async () => {
    const { page } = await maker.open({ data: {} });
    await chapterDrawn(page, "raise");
    for (const height of [0, 94, 188]) {
      const at = await slide(page, "raise", "Height of the truck", height);
      const { wheels, axles } = asked(at);
      await becomes(() => wheelWords(page)).toEqual(wheels);
      expect(await page.locator("#raise .for-screen .picture-words").allTextContents()).toEqual(
        axles,
      );
      const turned = await page
        .locator("#raise .for-screen .turning")
        .evaluateAll((all) => all.map((one) => one.getAttribute("transform")));
      const off = kTrucks.map(
        (file) =>
          engine.ask({ ask: "pose", file, height_mm: at }).values?.steering_wheel_off_centre_deg,
      );
      // To the left is anticlockwise, which SVG counts as negative.
      expect(turned).toEqual(off.map((deg) => `rotate(${-(deg ?? Number.NaN)})`));
    }
  });

  it("says in a verdict what the whole range does", async () => {
    const page = whole;
    await becomes(() => page.locator("#raise .verdict").textContent()).toBe(
      "With “Plain bars, mismatched” the steering wheel turns by up to 54 degrees to the left. With “Guided bars” it stays centred." +
        "The axle moves sideways by up to 61 mm to the left with “Plain bars, mismatched”. With “Guided bars” it stays in the middle.",
    );
  });

  it("speaks inches when asked to", async () => {
    const { page } = await maker.open({ data: { units: "inch" } });
    await becomes(() =>
      page.locator("#raise .for-screen .picture-words").allTextContents(),
    ).toEqual(asked(235, "inch").axles);
    expect(await page.locator("#raise output").textContent()).toBe("raised 9.3 in");
    await allDrawn(page);
    await page.getByRole("radio", { name: "mm", exact: true }).check();
    expect(await page.locator("#raise .for-screen .picture-words").allTextContents()).toEqual(
      asked(235).axles,
    );
    expect(await page.locator("#raise output").textContent()).toBe("raised 235 mm");
    expect(await page.locator("main").textContent()).not.toMatch(/\d in\b/);
  });
});

/** Where on the screen the page draws a mark, and where it should: the engine's projected point through the picture's box. */
async function marksAndPoints(
  page: Page,
  chapter: string,
  drawing: Drawing,
  names: readonly string[],
) {
  const sheet = page.locator(`#${chapter} .for-screen .sheet`);
  const [box, view] = await sheet.evaluate((svg) =>
    [
      svg.getBoundingClientRect().toJSON() as DOMRect,
      (svg as unknown as SVGSVGElement).viewBox.baseVal,
    ].map((rect) => ({
      x: rect?.x ?? 0,
      y: rect?.y ?? 0,
      width: rect?.width ?? 0,
      height: rect?.height ?? 0,
    })),
  );
  if (!box || !view) throw new Error("no picture");
  const perMm = box.width / view.width;
  const drawn = await page.locator(`#${chapter} .for-screen .mark-dot`).evaluateAll((dots) =>
    dots.map((dot) => {
      const at = dot.getBoundingClientRect();
      return [at.x + at.width / 2, at.y + at.height / 2];
    }),
  );
  const expected = names.map((name) => {
    const point = drawing.points.find((found) => found.name === name);
    if (!point) throw new Error(`no point ${name}`);
    const [x, y] = point.at_mm;
    return [box.x + (x - view.x) * perMm, box.y + (drawing.paper_mm[1] - y - view.y) * perMm];
  });
  return { drawn, expected };
}

/** A pixel: what the browser rounds a box to. */
const kPixel = 1;

function expectAlike(drawn: readonly number[][], expected: readonly number[][]): void {
  expect(drawn).toHaveLength(expected.length);
  expected.forEach(([x, y], i) => {
    expect(Math.abs((drawn[i]?.[0] ?? Number.NaN) - (x ?? 0))).toBeLessThan(kPixel);
    expect(Math.abs((drawn[i]?.[1] ?? Number.NaN) - (y ?? 0))).toBeLessThan(kPixel);
  });
}

describe("the folding bar", () => {
  it("is marked where the engine puts its joints, at every height", async () => {
    const page = whole;
    for (const height of [0, 117.5, 235]) {
      const at = await slide(page, "fold-why", "Height of the truck", height);
      const [drawing] = engine.ask({
        ask: "view",
        file: "trucks/guided.toml",
        height_mm: at,
        views: [
          {
            view: "pictorial",
            turn_deg: 180,
            tilt_deg: 0,
            paper_mm: [200, 200 / 1.2],
            hidden: false,
          },
        ],
      }).views;
      if (!drawing) throw new Error("nothing is drawn");
      const names = ["locator_near_end", "locator_guide_end", "locator_middle", "locator_pivot"];
      await becomes(() => page.locator("#fold-why .for-screen .mark-dot").count()).toBe(4);
      await becomes(async () => {
        const { drawn, expected } = await marksAndPoints(page, "fold-why", drawing, names);
        return Math.abs((drawn[0]?.[1] ?? 0) - (expected[0]?.[1] ?? 1000)) < kPixel;
      }).toBe(true);
      const { drawn, expected } = await marksAndPoints(page, "fold-why", drawing, names);
      expectAlike(drawn, expected);
    }
  });

  it("keeps its free end over its pivot on the screen, and the circle through both", async () => {
    const page = whole;
    const circle = await page.locator("#fold-why .for-screen circle.mark-helper").boundingBox();
    const dots = await page.locator("#fold-why .for-screen .mark-dot").evaluateAll((all) =>
      all.map((dot) => {
        const at = dot.getBoundingClientRect();
        return { x: at.x + at.width / 2, y: at.y + at.height / 2 };
      }),
    );
    const [near, guide, , pivot] = dots;
    if (!circle || !near || !guide || !pivot) throw new Error("not marked");
    expect(Math.abs(near.x - pivot.x)).toBeLessThan(kPixel);
    const centre = { x: circle.x + circle.width / 2, y: circle.y + circle.height / 2 };
    for (const end of [near, guide, pivot]) {
      const fromCentre = Math.hypot(end.x - centre.x, end.y - centre.y);
      expect(Math.abs(fromCentre - circle.width / 2)).toBeLessThan(2 * kPixel);
    }
  });
});

describe("two bars that differ", () => {
  it("steers the truck where the wheel is held, and says so from the engine's number", async () => {
    const page = whole;
    const chapter = page.locator("#differ");
    await chapter.getByRole("radio", { name: /the hands/ }).check();
    const { values } = engine.ask({
      ask: "pose",
      file: kTrucks[0] ?? "",
      height_mm: 235,
      held: true,
    });
    const steer = (values?.mean_steer_deg ?? Number.NaN).toFixed(1).replace("-", "");
    await becomes(() => chapter.locator(".for-screen .now").textContent()).toBe(
      `Raised by 235 mm, the steering wheel held still: the road wheels point ${steer} degrees to the right. The truck steers itself.`,
    );
    await slide(page, "differ", "Both wheels", 90);
    await becomes(() => chapter.locator(".for-screen .now").textContent()).toMatch(
      /^Hold the wheel still: a bump of 90 mm turns the road wheels .* to the left\.$/,
    );
  });
});

describe("the numbers", () => {
  it("are the engine's, row by row, with limits, what is not set and what was not checked", async () => {
    const page = whole;
    const { comparison, cautions } = engine.ask({ ask: "compare", files: kTrucks });
    expect(await page.locator("#numbers tbody").count()).toBe(comparison.length);
    const text = (await page.locator("#numbers").textContent()) ?? "";
    for (const { words } of comparison) expect(text).toContain(words);
    expect(text).toContain("53.7 deg to the left");
    expect(text).toContain("Limits set for “Plain bars, mismatched”: 1 met, 5 broken");
    expect(text).toContain(
      "Not checked: clearance, strength, play and stiffness and loads and ride height.",
    );
    const told = (await page.locator("#cautions").textContent()) ?? "";
    for (const caution of cautions) expect(told).toContain(caution);
    expect(((await page.locator("main").textContent()) ?? "").toLowerCase()).not.toMatch(
      /\bsafe\b/,
    );
  });
});

describe("trucks for which the story is another", () => {
  it("says that neither wheel turns where neither does", async () => {
    const trucks = ["trucks/guided.toml", "trucks/guided-loose.toml"];
    const { page, errors } = await maker.open({ data: { trucks } });
    await allDrawn(page);
    expect(await page.locator("#raise .verdict").textContent()).toBe(
      "From bottom to top both steering wheels stay centred.Neither axle moves sideways.",
    );
    expect(await page.locator("#recap").textContent()).toMatch(/Here neither turns\./);
    expect(await page.locator("#differ .caption").textContent()).toMatch(/made-up truck/);
    expect(errors).toEqual([]);
  });

  it("says that a truck cannot get there, and draws it as far as it goes", async () => {
    const tall = (text: string) =>
      text.replace("height_range = [0, 235]", "height_range = [0, 700]");
    const { desk } = await import("./agreement/trucks.ts");
    const files = Object.fromEntries([...desk].map(([path, text]) => [path, tall(text)]));
    const { page, errors } = await maker.open({ data: { files } });
    await chapterDrawn(page, "raise");
    await becomes(() =>
      page.locator("#raise .for-screen .not-reached").first().textContent(),
    ).toMatch(
      /^This truck cannot get there: .+\. Drawn as far as it goes: at height \d+ mm, going straight\.$/,
    );
    expect((await wheelWords(page))[0]).toBe("Not to be had");
    await becomes(() => page.locator("#raise .verdict").textContent()).toMatch(
      /cannot reach every height/,
    );
    await allDrawn(page);
    expect(await page.locator("main").textContent()).not.toMatch(/NaN|undefined|null/);
    expect(errors).toEqual([]);
  });
});

describe("what the shop says", () => {
  it("stands there as text, whatever it holds", async () => {
    const hostile = "</script><img src=x onerror=\"document.title='run'\">Skarn & <b>Lane</b>";
    const words = "<!-- <script>document.title='run'</script>";
    const { page, errors } = await maker.open({ data: { shop: { name: hostile, words } } });
    await allDrawn(page);
    expect(await page.locator(".shop").textContent()).toBe(hostile);
    expect(await page.locator(".shop-words").textContent()).toBe(words);
    expect(await page.locator("header img, header b").count()).toBe(0);
    expect(await page.title()).toBe(`${hostile}: Why does the steering wheel turn?`);
    expect(errors).toEqual([]);
  });
});
