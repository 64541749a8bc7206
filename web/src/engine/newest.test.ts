import { expect, test } from "vitest";
import { newestOnly } from "./newest.ts";

/** Askings that are answered by hand. */
function byHand() {
  const asked: string[] = [];
  const answers = new Map<string, (answer: string) => void>();
  return {
    asked,
    asking: (name: string) => () => {
      asked.push(name);
      return new Promise<string>((answer) => answers.set(name, answer));
    },
    answer: (name: string) => answers.get(name)?.(`answer to ${name}`),
  };
}

test("the first is asked at once", async () => {
  const { asked, asking, answer } = byHand();
  const first = newestOnly<string>()(asking("first"));
  expect(asked).toEqual(["first"]);
  answer("first");
  expect(await first).toBe("answer to first");
});

test("of those that come while one is being answered only the newest is asked", async () => {
  const { asked, asking, answer } = byHand();
  const newest = newestOnly<string>();
  const first = newest(asking("first"));
  const second = newest(asking("second"));
  const third = newest(asking("third"));
  expect(await second).toBeUndefined();
  expect(asked).toEqual(["first"]);
  answer("first");
  expect(await first).toBe("answer to first");
  expect(asked).toEqual(["first", "third"]);
  answer("third");
  expect(await third).toBe("answer to third");
});

test("one that fails makes room for the next", async () => {
  const newest = newestOnly<string>();
  const first = newest(() => Promise.reject(new Error("gone")));
  const second = newest(() => Promise.resolve("here"));
  await expect(first).rejects.toThrow("gone");
  expect(await second).toBe("here");
});
