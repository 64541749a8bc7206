// The accessibility checker, axe-core, put into a page.

import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";

const kAxe = readFileSync(
  fileURLToPath(new URL("../node_modules/axe-core/axe.min.js", import.meta.url)),
  "utf8",
);

/** What the checker (axe-core) finds, as "rule: where". */
export async function found(page: Page): Promise<string[]> {
  await page.evaluate(kAxe);
  return page.evaluate(async () => {
    const axe = (window as unknown as { axe: { run(): Promise<{ violations: Violation[] }> } }).axe;
    interface Violation {
      readonly id: string;
      readonly nodes: readonly { readonly target: readonly unknown[] }[];
    }
    const { violations } = await axe.run();
    return violations.flatMap(({ id, nodes }) => nodes.map((node) => `${id}: ${node.target}`));
  });
}
