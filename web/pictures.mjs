// Makes the pictures of README and guide, into docs/pictures, out of the built pages and a customer page of two example trucks
// (tools/pictures). Frames of the moving picture go into a folder of their own.
//
//   node pictures.mjs CUSTOMER_PAGE FRAMES_FOLDER
import { fileURLToPath, pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const [customerPage, frames] = process.argv.slice(2);
if (customerPage === undefined || frames === undefined)
  throw new Error("usage: node pictures.mjs CUSTOMER_PAGE FRAMES_FOLDER");
const pictures = fileURLToPath(new URL("../docs/pictures/", import.meta.url));
const workspace = new URL("../build/web/workspace.html", import.meta.url).href;
const kFrames = 16;

const browser = await chromium.launch({
  executablePath: "/usr/bin/chromium",
  args: ["--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking"],
});

/**
 * A page without motion of its own, when it has computed.
 *
 * @param {string} url
 * @param {number} width
 * @param {number} height
 */
async function opened(url, width, height) {
  const context = await browser.newContext({
    viewport: { width, height },
    reducedMotion: "reduce",
    offline: true,
  });
  const page = await context.newPage();
  await page.goto(url);
  await page.waitForTimeout(2500);
  return page;
}

/**
 * @param {import("playwright-core").Page} page
 * @param {number} share
 */
async function raise(page, share) {
  const slider = page.locator('input[type="range"]').first();
  await slider.evaluate((element, at) => {
    const input = /** @type {HTMLInputElement} */ (element);
    const low = Number(input.min);
    input.value = String(low + at * (Number(input.max) - low));
    input.dispatchEvent(new Event("input", { bubbles: true }));
  }, share);
  await page.waitForTimeout(250);
}

const sheet = await opened(workspace, 1280, 800);
await sheet
  .getByRole("spinbutton", { name: /^Height/ })
  .or(sheet.getByRole("textbox", { name: /^Height/ }))
  .first()
  .fill("140");
await sheet.keyboard.press("Enter");
await sheet.waitForTimeout(1500);
await sheet.screenshot({ path: `${pictures}workspace.png` });

const phone = await opened(pathToFileURL(customerPage).href, 390, 800);
await raise(phone, 1);
await phone.screenshot({ path: `${pictures}customer-page.png` });

const wide = await opened(pathToFileURL(customerPage).href, 640, 860);
for (let k = 0; k < kFrames; ++k) {
  await raise(wide, (1 - Math.cos((2 * Math.PI * k) / kFrames)) / 2);
  await wide.screenshot({ path: `${frames}/${String(k).padStart(2, "0")}.png` });
}
await browser.close();
