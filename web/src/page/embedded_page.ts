// What the program writes into the template, as text.

import { kExamplePage } from "./examples.ts";
import { type PageData, readPageData } from "./page_data.ts";

export function embeddedPage(): PageData {
  const element = document.getElementById("axlewright-page");
  if (!element) throw new Error("this page was built without its data");
  return readPageData(element.textContent ?? "null", kExamplePage);
}
