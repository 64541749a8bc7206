import type { Browser } from "playwright-core";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { pixelsToMm } from "../src/units.ts";
import { launchChromium } from "./chromium.ts";
import {
  becomes,
  closePages,
  dragPoint,
  drawn,
  editorText,
  engineOfExamples,
  enter,
  handlePlace,
  openDrawer,
  openWorkspace,
  stripValue,
} from "./workspace_page.ts";

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

const kWheel = "steering wheel off centre";

describe("opened from disk", () => {
  it("shows an example truck with sheet, strips, limits and cautions, and nothing on the console", async () => {
    const { page, errors } = await openWorkspace(browser);
    expect(await page.locator(".cell-truck").textContent()).toBe("Plain bars, mismatched");
    expect(await stripValue(page, kWheel)).toBe("0.00 deg");
    await becomes(() =>
      page.locator(".drawer-front", { hasText: "Limits" }).textContent(),
    ).toContain("5 broken, 1 met");
    expect(await page.locator("footer").textContent()).toContain(
      "Steering and suspension can kill",
    );
    expect(errors).toEqual([]);
  });

  it("draws the points where the engine puts them", async () => {
    const { page } = await openWorkspace(browser);
    await enter(page, "Height", "140 mm");
    await becomes(() => page.locator(".cell-pose").textContent()).toContain("height 140 mm");
    const svg = page.locator(".view.is-large svg");
    const [width, height] = await svg.evaluate((one) => [one.clientWidth, one.clientHeight]);
    const tenth = (pixels: number | undefined) => Math.round(pixelsToMm(pixels ?? 0) * 10) / 10;
    const engine = await engineOfExamples();
    const answer = engine.ask({
      ask: "view",
      file: "plain-mismatched.toml",
      height_mm: 140,
      views: [{ view: "front", paper_mm: [tenth(width), tenth(height)] }],
    });
    const drawing = answer.views[0];
    const box = await svg.boundingBox();
    if (!drawing || !box) throw new Error("nothing is drawn");
    expect(drawing.points.length).toBeGreaterThan(10);
    const perMm = box.width / drawing.paper_mm[0];
    for (const point of drawing.points) {
      const [x, y] = await handlePlace(page, point.name);
      // Half a pixel: handles are placed to a hundredth of a millimetre, boxes are told in pixels.
      expect(Math.abs(x - (box.x + point.at_mm[0] * perMm))).toBeLessThan(0.5);
      expect(Math.abs(y - (box.y + (drawing.paper_mm[1] - point.at_mm[1]) * perMm))).toBeLessThan(
        0.5,
      );
    }
  });

  it("tells the engine's values at the pose that is set", async () => {
    const { page } = await openWorkspace(browser);
    await enter(page, "Height", "235");
    // README.md: 53.7 deg to the left at height 235 mm, the axle walks 61.3 mm to the left.
    await becomes(() => stripValue(page, kWheel)).toBe("53.7 deg left");
    expect(await stripValue(page, "axle walk, sideways")).toBe("61.3 mm left");
  });
});

describe("a point", () => {
  it("is dragged: values change at once, the last version stays, and undo brings it back", async () => {
    const { page, errors } = await openWorkspace(browser);
    await enter(page, "Height", "235");
    await becomes(() => stripValue(page, kWheel)).toBe("53.7 deg left");
    const from = await handlePlace(page, "track_bar_axle");
    await dragPoint(page, "track_bar_axle", 0, -12);
    await becomes(() => stripValue(page, kWheel)).not.toBe("53.7 deg left");
    await becomes(() => page.locator(".saved").textContent()).toBe("1 file not saved");
    // It went with the pointer.
    const to = await handlePlace(page, "track_bar_axle");
    expect(Math.abs(to[1] - (from[1] - 12))).toBeLessThan(2);
    await becomes(() => page.locator(".strip-plot .curve-before[d^='M']").count()).toBeGreaterThan(
      0,
    );
    await becomes(() => page.locator(".is-large .is-before path[d^='M']").count()).toBeGreaterThan(
      0,
    );
    await page.getByRole("button", { name: "Undo" }).click();
    await becomes(() => stripValue(page, kWheel)).toBe("53.7 deg left");
    await page.getByRole("button", { name: "Redo" }).click();
    await becomes(() => stripValue(page, kWheel)).not.toBe("53.7 deg left");
    expect(errors).toEqual([]);
  });

  it("is moved by keyboard alone, a millimetre a key, and undone by keyboard", async () => {
    const { page } = await openWorkspace(browser);
    await page.locator('[data-point="track_bar_axle"]').focus();
    await becomes(() => page.locator(".cell-point").textContent()).toContain("z 540.0 mm");
    for (let i = 0; i < 3; i += 1) await page.keyboard.press("ArrowUp");
    await becomes(() => page.locator(".cell-point").textContent()).toContain("z 543.0 mm");
    await page.keyboard.press("Shift+ArrowDown");
    await becomes(() => page.locator(".cell-point").textContent()).toContain("z 542.9 mm");
    await becomes(() => page.locator(".saved").textContent()).toBe("1 file not saved");
    await page.keyboard.press("Control+z");
    await becomes(() => page.locator(".cell-point").textContent()).toContain("z 540.0 mm");
  });

  it("is typed in another unit, and the sheet follows", async () => {
    const { page } = await openWorkspace(browser);
    await openDrawer(page, "Points");
    const field = page.getByRole("textbox", { name: "z of track bar axle" });
    await field.fill("21 1/2 in");
    await field.press("Enter");
    // 21.5 times 25.4 mm.
    await becomes(() => field.inputValue()).toBe("546.1");
    await becomes(() => page.locator(".saved").textContent()).toBe("1 file not saved");
  });

  it("typed as nonsense is refused in the engine's words, and nothing changes", async () => {
    const { page } = await openWorkspace(browser);
    await openDrawer(page, "Points");
    const field = page.getByRole("textbox", { name: "z of track bar axle" });
    await field.fill("high");
    await field.press("Enter");
    await becomes(() => page.locator(".points .field-fault").textContent()).toContain(
      "a number is missing here",
    );
    await becomes(() => page.getByRole("button", { name: "Undo" }).isDisabled()).toBe(true);
    expect(await page.locator(".saved").textContent()).toBe("");
    expect(await page.locator(".points .field-fault").textContent()).not.toBe("");
  });
});

describe("fields", () => {
  it("take a length with its unit", async () => {
    const { page } = await openWorkspace(browser);
    await enter(page, "Height", "4 in");
    await becomes(() =>
      page.getByRole("textbox", { name: "Height", exact: true }).inputValue(),
    ).toBe("101.6");
  });

  it("say what is wrong with nonsense and keep the pose", async () => {
    const { page } = await openWorkspace(browser);
    await enter(page, "Height", "100");
    await becomes(() => page.locator(".cell-pose").textContent()).toContain("height 100 mm");
    await enter(page, "Height", "very high");
    const control = page.locator(".control", { hasText: "Height" }).first();
    expect(await control.locator(".field-fault").textContent()).toContain("a number is missing");
    expect(await page.locator(".cell-pose").textContent()).toContain("height 100 mm");
    await page.keyboard.press("Escape");
    expect(await page.getByRole("textbox", { name: "Height", exact: true }).inputValue()).toBe(
      "100.0",
    );
  });

  it("show everything in inches", async () => {
    const { page } = await openWorkspace(browser);
    await enter(page, "Height", "254");
    await page.getByLabel("inch").check();
    await becomes(() =>
      page.getByRole("textbox", { name: "Height", exact: true }).inputValue(),
    ).toBe("10.00");
    await becomes(() => stripValue(page, "axle walk, sideways")).toMatch(/ in left$/);
  });
});

describe("a mechanism that cannot reach the height", () => {
  it("is told in words, drawn at the last pose reached, and its strips stop there", async () => {
    const { page, errors } = await openWorkspace(browser);
    await enter(page, "Height", "900 mm");
    await becomes(() => page.locator(".sheet-note").textContent()).toContain(
      "no pose at height 900 mm",
    );
    const note = await page.locator(".sheet-note").textContent();
    expect(note).toContain("Drawn is the last pose reached");
    expect(await page.locator(".view.is-large").getAttribute("class")).toContain("is-last-reached");
    expect(await page.locator(".is-large .stamp").isVisible()).toBe(true);
    // No number of a pose that there is not.
    expect(await stripValue(page, kWheel)).toBe("-");
    expect(await page.locator(".cell-pose").textContent()).not.toContain("900");
    await openDrawer(page, "File");
    await page.locator(".editor-head select").selectOption("dunlin-35.toml");
    const area = page.locator(".editor-text");
    await area.fill((await editorText(page, "height_range")).replace("[0, 235]", "[0, 900]"));
    await becomes(() => page.locator(".refusals li").count()).toBeGreaterThan(0);
    expect(await page.locator(".refused").count()).toBeGreaterThan(0);
    expect(errors).toEqual([]);
  });
});

describe("the text of the file", () => {
  it("has every fault beside its line as one types, and the sheet keeps the last good version", async () => {
    const { page, errors } = await openWorkspace(browser);
    await openDrawer(page, "File");
    const area = page.locator(".editor-text");
    const text = await editorText(page, "Plain bars");
    const bad = text.replace("at = [-90, -430, 540]", 'at = [-90, "low", 540]');
    await area.fill(bad);
    const line = bad.slice(0, bad.indexOf('"low"')).split("\n").length;
    const note = page.locator(`.note-list li[data-line="${line}"]`);
    await becomes(() => note.count()).toBe(1);
    expect(await note.textContent()).toContain("a number is missing here");
    expect(await note.textContent()).toContain("write a number and its unit");
    const [noteBox, areaBox] = [await note.boundingBox(), await area.boundingBox()];
    const scrolled = await area.evaluate((one) => one.scrollTop);
    // Beside its line: lines are 20 pixels high.
    expect(noteBox?.y).toBeCloseTo((areaBox?.y ?? 0) + (line - 1) * 20 - scrolled, -0.5);
    await becomes(() => page.locator(".sheet-note").textContent()).toContain(
      "last version without",
    );
    expect(await page.locator(".is-large .handle").count()).toBeGreaterThan(10);
    await area.fill(text);
    await becomes(() => page.locator(".sheet-note").textContent()).toBe("");
    expect(await page.locator(".editor-summary").textContent()).toBe("No faults.");
    expect(errors).toEqual([]);
  });

  it("leads from the sheet to the fault", async () => {
    const { page } = await openWorkspace(browser);
    await openDrawer(page, "File");
    const area = page.locator(".editor-text");
    await area.fill(
      (await editorText(page, "Plain bars")).replace("sleeve = 3.175", 'sleeve = "long"'),
    );
    await page.getByRole("button", { name: "Show it in the file" }).click();
    await becomes(() =>
      area.evaluate((one) => {
        const field = one as HTMLTextAreaElement;
        return field.value.slice(field.selectionStart, field.selectionEnd);
      }),
    ).toBe("long");
  });

  it("typed into is drawn at once, and is one step of undo", async () => {
    const { page } = await openWorkspace(browser);
    await enter(page, "Height", "235");
    await openDrawer(page, "File");
    const area = page.locator(".editor-text");
    await area.fill((await editorText(page, "Plain bars")).replace("-430, 540]", "-430, 560]"));
    // README.md: with the axle's end 20 mm higher 22.3 deg are left.
    await becomes(() => stripValue(page, kWheel)).toBe("22.3 deg left");
    await page.getByRole("button", { name: "Undo" }).click();
    await becomes(() => stripValue(page, kWheel)).toBe("53.7 deg left");
    await becomes(() => area.inputValue()).toContain("-430, 540]");
  });
});

describe("the limits board", () => {
  it("goes to the worst pose", async () => {
    const { page } = await openWorkspace(browser);
    await openDrawer(page, "Limits");
    const row = page.locator(".limits tbody tr", { hasText: kWheel });
    await becomes(() => row.count()).toBe(1);
    expect(await row.locator(".verdict").textContent()).toContain("broken");
    await row.locator("button.go").focus();
    await page.keyboard.press("Enter");
    await becomes(() => page.locator(".cell-pose").textContent()).toContain("height 235 mm");
    await becomes(() => stripValue(page, kWheel)).toBe("53.7 deg left");
  });

  it("is computed anew after a change, and says until then that it is of the version before", async () => {
    const { page } = await openWorkspace(browser);
    const front = page.locator(".drawer-front", { hasText: "Limits" });
    await becomes(() => front.textContent()).toContain("5 broken");
    await page.locator(".top-bar select").first().selectOption("guided.toml");
    await drawn(page);
    await becomes(() => front.textContent()).toContain("0 broken, 6 met");
  });
});

describe("what matters most", () => {
  it("is listed and drawn as numbered arrows", async () => {
    const { page } = await openWorkspace(browser);
    await openDrawer(page, "What matters");
    await becomes(() => page.locator(".influences").first().locator("li").count()).toBeGreaterThan(
      3,
    );
    await becomes(() => page.locator(".is-large .arrow").count()).toBeGreaterThan(0);
    await page.locator(".influences button").first().click();
    await becomes(() => page.locator(".is-large .handle.is-selected").count()).toBe(1);
  });
});

describe("what is loose", () => {
  it("is told, and carried out by hand", async () => {
    const { page, errors } = await openWorkspace(browser);
    await page.locator(".top-bar select").first().selectOption("guided-loose.toml");
    await openDrawer(page, "What is loose");
    const motion = page.locator(".loose-list > li", {
      hasText: "tie rod: turns about its own line",
    });
    await becomes(() => motion.count()).toBe(1);
    // Reduced motion is asked for: nothing plays by itself.
    expect(await motion.getByRole("button", { name: "Play" }).isVisible()).toBe(false);
    const before = await page.locator(".is-large .is-present").innerHTML();
    const field = motion.getByRole("textbox");
    await field.fill("12 deg");
    await field.press("Enter");
    await becomes(() => page.locator(".is-large .is-present").innerHTML()).not.toBe(before);
    expect(errors).toEqual([]);
  });
});

describe("what else a check found", () => {
  it("stands beside it: what rigid parts could not do, and how well a measured truck fits together", async () => {
    const { page, errors } = await openWorkspace(browser);
    const truck = page.locator(".top-bar select").first();
    const section = (heading: string) =>
      page.locator(".loose section", { has: page.getByRole("heading", { name: heading }) });
    await openDrawer(page, "What is loose");
    await truck.selectOption("radius-arm.toml");
    await becomes(() => section("What rigid parts could not do").locator("li").count()).toBe(2);
    expect(await section("As measured").isVisible()).toBe(false);
    await truck.selectOption("plain-measured.toml");
    const told = section("As measured").locator("li");
    await becomes(() => told.first().textContent()).toContain("What was measured fits together");
    expect(await told.allTextContents()).toContainEqual(
      expect.stringMatching(/^track bar slope: the fit is .* its plus_minus$/),
    );
    expect(await section("What rigid parts could not do").isVisible()).toBe(false);
    expect(errors).toEqual([]);
  });
});

describe("what is loose, where motion is welcome", () => {
  it("is played until it is stopped", async () => {
    const { page, errors } = await openWorkspace(browser, { motion: true });
    await page.locator(".top-bar select").first().selectOption("guided-loose.toml");
    await openDrawer(page, "What is loose");
    const motion = page.locator(".loose-list > li", { hasText: "tie rod: turns about" });
    const play = motion.getByRole("button");
    await play.click();
    await becomes(() => play.textContent()).toBe("Stop");
    const angle = () => motion.getByRole("textbox").inputValue();
    await becomes(async () => Math.abs(Number(await angle()))).toBeGreaterThan(5);
    await play.click();
    await becomes(() => play.textContent()).toBe("Play");
    await becomes(angle).toBe("0.00");
    expect(errors).toEqual([]);
  });
});

describe("compare", () => {
  it("draws both, puts both in the strips, and names them in words", async () => {
    const { page, errors } = await openWorkspace(browser);
    await openDrawer(page, "Compare");
    await page.getByLabel("Compare with").selectOption("guided.toml");
    await becomes(() => page.locator(".strip-plot .curve-other[d^='M']").count()).toBeGreaterThan(
      3,
    );
    await becomes(() => page.locator(".is-large .is-other path[d^='M']").count()).toBeGreaterThan(
      3,
    );
    expect(await page.locator(".legends").textContent()).toContain("Guided bars");
    await becomes(() => page.locator(".compare .board tbody tr").count()).toBeGreaterThan(4);
    expect(errors).toEqual([]);
  });
});

describe("a second truck from elsewhere", () => {
  it("is added with its layers, and takes the place of none that is there", async () => {
    const { page, errors } = await openWorkspace(browser);
    await openDrawer(page, "Compare");
    const engine = await engineOfExamples();
    const whole = engine.ask({ ask: "start", layout: "guided", example_numbers: true }).file_text;
    const rest = whole.replace(/^name = .*$/m, 'name = "Layer"');
    const file = (name: string, text: string) => ({
      name,
      mimeType: "application/toml",
      buffer: Buffer.from(text),
    });
    const truck = 'format = 1\nunits = "mm"\nname = "Theirs"\nbased_on = ["dunlin-35.toml"]\n';
    await page
      .locator(".compare input[type='file']")
      .setInputFiles([file("theirs.toml", truck), file("dunlin-35.toml", rest)]);
    await becomes(() => page.locator(".legends").textContent()).toContain("Theirs");
    expect(await page.locator(".compare select").inputValue()).toBe("added-1/theirs.toml");
    await becomes(() => page.locator(".strip-plot .curve-other[d^='M']").count()).toBeGreaterThan(
      3,
    );
    expect(await page.locator(".cell-truck").textContent()).toBe("Plain bars, mismatched");
    expect(errors).toEqual([]);
  });
});

describe("the pictorial view", () => {
  it("is turned by its sliders and by dragging the paper", async () => {
    const { page } = await openWorkspace(browser);
    await page.getByRole("button", { name: "Pictorial" }).click();
    await becomes(() => page.locator(".view.is-large .handle").count()).toBeGreaterThan(10);
    const before = await handlePlace(page, "wheel_centre_left");
    await page.getByRole("slider", { name: "Turn" }).focus();
    await page.keyboard.press("End");
    const x = async () => (await handlePlace(page, "wheel_centre_left"))[0];
    await becomes(async () => Math.abs((await x()) - before[0])).toBeGreaterThan(20);
    const turned = await x();
    const box = await page.locator(".view.is-large svg").boundingBox();
    if (!box) throw new Error("no view");
    await page.mouse.move(box.x + 60, box.y + box.height - 60);
    await page.mouse.down();
    await page.mouse.move(box.x + 160, box.y + box.height - 60, { steps: 4 });
    await page.mouse.up();
    await becomes(async () => Math.abs((await x()) - turned)).toBeGreaterThan(20);
  });
});

describe("by keyboard", () => {
  it("the rule raises the truck", async () => {
    const { page } = await openWorkspace(browser);
    const rule = page.getByRole("slider", { name: "Height" }).first();
    await page.locator(".rule-slider").focus();
    await page.keyboard.press("PageUp");
    await page.keyboard.press("ArrowUp");
    await becomes(() => page.locator(".cell-pose").textContent()).toContain("height 26 mm");
    await page.keyboard.press("End");
    await becomes(() => page.locator(".cell-pose").textContent()).toContain("height 235 mm");
    expect(await rule.count()).toBe(1);
  });

  it("every control is reached by Tab and shows that it has the focus", async () => {
    const { page } = await openWorkspace(browser);
    const seen = new Set<string>();
    for (let i = 0; i < 60; i += 1) {
      await page.keyboard.press("Tab");
      const [name, outline] = await page.evaluate(() => {
        const one = document.activeElement as HTMLElement | null;
        if (!one || one === document.body) return ["", "none"];
        const label =
          one.getAttribute("aria-label") ??
          (one as HTMLInputElement).labels?.[0]?.textContent ??
          one.textContent ??
          "";
        const ring = one.querySelector(".handle-ring");
        const shown = ring
          ? getComputedStyle(ring).stroke !== "rgba(0, 0, 0, 0)"
          : getComputedStyle(one).outlineStyle !== "none";
        return [label.trim(), shown ? "shown" : "none"];
      });
      if (name === "") break;
      expect(`${name}: ${outline}`).toBe(`${name}: shown`);
      seen.add(name as string);
    }
    for (const wanted of [
      "Truck",
      "Open files",
      "mm",
      "Theme",
      "Side",
      "Table",
      "Height",
      "Lean",
      "Steering",
      "Level",
    ]) {
      expect([...seen].some((name) => name.startsWith(wanted))).toBe(true);
    }
    expect([...seen].some((name) => name.startsWith("point "))).toBe(true);
    expect([...seen].some((name) => name.startsWith("Limits"))).toBe(true);
  });

  it("another view is made the large one", async () => {
    const { page } = await openWorkspace(browser);
    await page.getByRole("button", { name: "Side", exact: true }).focus();
    await page.keyboard.press("Enter");
    await becomes(() => page.locator(".view.is-large").getAttribute("data-view")).toBe("side");
    await becomes(() => page.locator(".view.is-large .handle").count()).toBeGreaterThan(10);
  });
});

describe("to take away", () => {
  it("a view as SVG, the strips as CSV, both with what is shown", async () => {
    const { page } = await openWorkspace(browser);
    const svg = page.waitForEvent("download");
    await page.getByRole("button", { name: "View as SVG" }).click();
    expect((await svg).suggestedFilename()).toBe("plain-bars-mismatched-front-view.svg");
    const csv = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save CSV" }).click();
    const stream = await (await csv).createReadStream();
    let text = "";
    for await (const part of stream) text += part;
    const lines = text.trim().split("\r\n");
    expect(lines).toHaveLength(102);
    expect(lines[0]).toContain("height_mm,steering_wheel_off_centre_deg");
    expect(Number(lines[101]?.split(",")[1])).toBeCloseTo(53.7, 1);
  });

  it("a table stands behind the strips", async () => {
    const { page } = await openWorkspace(browser);
    await page.getByRole("button", { name: "Table" }).click();
    await becomes(() => page.locator(".height-table tbody tr").count()).toBe(101);
    expect(await page.locator(".height-table tbody tr").last().textContent()).toContain(
      "53.7 left",
    );
  });
});

describe("files handed over", () => {
  it("wait for the layer that is missing, by name, and go on when it comes", async () => {
    const { page } = await openWorkspace(browser);
    const input = page.locator('.top-bar input[type="file"][multiple]');
    const truck = { name: "mine.toml", mimeType: "application/toml" };
    const text = 'format = 1\nunits = "mm"\nname = "Mine"\nbased_on = ["parts/rest.toml"]\n';
    await input.setInputFiles([{ ...truck, buffer: Buffer.from(text) }]);
    await becomes(() => page.locator(".sheet-note").textContent()).toContain(
      "Waiting for parts/rest.toml",
    );
    const engine = await engineOfExamples();
    const whole = engine.ask({ ask: "start", layout: "plain", example_numbers: true }).file_text;
    const rest = { name: "rest.toml", mimeType: "application/toml", buffer: Buffer.from(whole) };
    await input.setInputFiles([rest]);
    await becomes(() => page.locator(".cell-truck").textContent()).toBe("Mine");
    expect(await page.locator(".sheet-note").textContent()).toBe("");
  });
});
