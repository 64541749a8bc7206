import { expect, test } from "vitest";
import { insertBefore, insideScript } from "./compose.mjs";

test("what is put into a script element does not end it", () => {
  const text = insideScript('const a = "</script><!-- </SCRIPT >";');
  expect(text).not.toMatch(/<\/script/i);
  expect(text).not.toContain("<!--");
});

test("a page has one place for each thing", () => {
  expect(insertBefore("<head></head>", "</head>", "$& new")).toBe("<head>$& new\n</head>");
  expect(() => insertBefore("<head>", "</head>", "new")).toThrow("the page needs one </head>");
  expect(() => insertBefore("</head></head>", "</head>", "new")).toThrow("one </head>");
});
