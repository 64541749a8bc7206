import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { Rest } from "./rest.ts";

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

it("runs once, when it has been quiet for long enough", () => {
  const job = vi.fn();
  const rest = new Rest(300, job);
  rest.wait();
  vi.advanceTimersByTime(200);
  rest.wait();
  vi.advanceTimersByTime(299);
  expect(job).not.toHaveBeenCalled();
  vi.advanceTimersByTime(1);
  expect(job).toHaveBeenCalledTimes(1);
});

it("runs at once what is waited for, and only that", () => {
  const job = vi.fn();
  const rest = new Rest(300, job);
  rest.now();
  expect(job).not.toHaveBeenCalled();
  rest.wait();
  rest.now();
  vi.advanceTimersByTime(1000);
  expect(job).toHaveBeenCalledTimes(1);
});

it("does not run what was cancelled", () => {
  const job = vi.fn();
  const rest = new Rest(300, job);
  rest.wait();
  rest.cancel();
  vi.advanceTimersByTime(1000);
  expect(job).not.toHaveBeenCalled();
});
