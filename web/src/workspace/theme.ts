// Light or dark, as the system has it or as the person chose.

import type { Theme } from "./state.ts";

const kStored = "axlewright-theme";
const kDark = "(prefers-color-scheme: dark)";

export function applyTheme(theme: Theme): void {
  const dark = theme === "dark" || (theme === "system" && matchMedia(kDark).matches);
  document.documentElement.dataset.theme = dark ? "dark" : "light";
}

/** Calls back when the system changes over. */
export function onSystemTheme(changed: () => void): void {
  matchMedia(kDark).addEventListener("change", changed);
}

/** What was chosen last time; a page from disk may have no storage. */
export function storedTheme(): Theme {
  try {
    const stored = localStorage.getItem(kStored);
    return stored === "light" || stored === "dark" ? stored : "system";
  } catch {
    return "system";
  }
}

export function storeTheme(theme: Theme): void {
  try {
    localStorage.setItem(kStored, theme);
  } catch {
    // Without storage the next visit begins as the system has it.
  }
}
