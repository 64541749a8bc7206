// Debian's Chromium, without a screen and without a word to anyone.

import { type Browser, chromium } from "playwright-core";

const quiet = [
  "--headless",
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

export function launchChromium(...more: readonly string[]): Promise<Browser> {
  return chromium.launch({ executablePath: "/usr/bin/chromium", args: [...quiet, ...more] });
}
