// A point of the largest example dragged in the workspace: 101 heights solved anew, four views composed, everything redrawn. Prints a
// row for each case as the other benches do (bench/README.md): wall time in microseconds, median and 95th percentile over the
// frames of a drag. Wants the built page and Debian's Chromium; tools/bench runs it.
import { chromium } from "playwright-core";

const kMoves = 160;
const kWarmUp = 20;
const workspace = new URL("../../build/web/workspace.html", import.meta.url).href;

const browser = await chromium.launch({
  executablePath: "/usr/bin/chromium",
  args: ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking"],
});
const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
await page.goto(workspace);
await page.waitForSelector(".view.is-large .handle");
await page.locator(".top-bar select").first().selectOption("guided.toml");
const handle = page.locator('.view.is-large [data-point="locator_pivot"] .handle-mark');
await handle.waitFor();
await page.waitForTimeout(3000);

const before = await page.locator(".strip-plot .curve-present").first().getAttribute("d");
const box = await handle.boundingBox();
if (!box) throw new Error("the point is not drawn");
const x = box.x + box.width / 2;
const y = box.y + box.height / 2;
await page.evaluate(() => {
  window.axlewrightFrames = [];
});
await page.mouse.move(x, y);
await page.mouse.down();
for (let k = 1; k <= kMoves; ++k) {
  await page.mouse.move(x + 0.05 * k, y - 6 * Math.sin(k / 12));
  await page.waitForTimeout(40);
}
const after = await page.locator(".strip-plot .curve-present").first().getAttribute("d");
const frames = (await page.evaluate(() => window.axlewrightFrames)) ?? [];
await page.mouse.up();
await browser.close();

const solved = frames.filter((frame) => frame.strips).slice(kWarmUp);
if (before === after || solved.length < kMoves / 2) {
  console.error(`the drag changed nothing, or too little was drawn: ${solved.length} frames`);
  process.exit(1);
}

/** @param {string} name @param {number[]} times in ms */
function row(name, times) {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (/** @type {number} */ share) =>
    (sorted[Math.floor(share * (sorted.length - 1))] ?? Number.NaN) * 1000;
  console.log(`${name},${at(0.5).toFixed(3)},${at(0.95).toFixed(3)},`);
}
row(
  "point_drag_guided_answer",
  solved.map((frame) => frame.answered_ms - frame.asked_ms),
);
row(
  "point_drag_guided_redraw",
  solved.map((frame) => frame.painted_ms - frame.answered_ms),
);
row(
  "point_drag_guided_frame",
  solved.map((frame) => frame.painted_ms - frame.asked_ms),
);
