import { expect, test } from "vitest";
import { type Desk, type Job, Lane, type Outcome, type WorkerLike } from "./lane.ts";
import type { FromWorker, ToWorker, Work } from "./messages.ts";

/** A worker whose answers are given by hand. */
class HandWorker implements WorkerLike {
  onmessage: ((event: MessageEvent<FromWorker>) => void) | null = null;
  onerror: ((event: ErrorEvent) => void) | null = null;
  readonly works: Work[] = [];
  ended = false;

  postMessage(message: ToWorker): void {
    if ("question" in message) this.works.push(message);
  }
  terminate(): void {
    this.ended = true;
  }
  say(data: FromWorker): void {
    this.onmessage?.(new MessageEvent("message", { data }));
  }
}

const noModule = new Promise<WebAssembly.Module>(() => {});

function laneOfHandWorkers() {
  const workers: HandWorker[] = [];
  const lane = new Lane(() => {
    const worker = new HandWorker();
    workers.push(worker);
    return worker;
  }, noModule);
  return { lane, workers };
}

function jobWith(question: string, files: Record<string, string> = {}) {
  const outcomes: Outcome[] = [];
  const shares: number[] = [];
  const desk: Desk = new Map(Object.entries(files));
  const job: Job = {
    desk,
    question,
    onProgress: (share) => shares.push(share),
    done: (outcome) => outcomes.push(outcome),
  };
  return { job, outcomes, shares };
}

test("one question at a time, in the order in which they came", () => {
  const { lane, workers } = laneOfHandWorkers();
  const [first, second] = [jobWith("first"), jobWith("second")];
  lane.add(first.job);
  lane.add(second.job);
  expect(workers[0]?.works.map((work) => work.question)).toEqual(["first"]);
  workers[0]?.say({ share: 0.5 });
  workers[0]?.say({ answer: "one" });
  workers[0]?.say({ answer: "two" });
  expect(workers[0]?.works.map((work) => work.question)).toEqual(["first", "second"]);
  expect(first).toMatchObject({ outcomes: [{ answer: "one" }], shares: [0.5] });
  expect(second).toMatchObject({ outcomes: [{ answer: "two" }], shares: [] });
  expect(workers.length).toBe(1);
});

test("with a question go only the files that changed", () => {
  const { lane, workers } = laneOfHandWorkers();
  lane.add(jobWith("first", { a: "1", b: "1" }).job);
  lane.add(jobWith("second", { a: "2", c: "1" }).job);
  workers[0]?.say({ answer: "one" });
  expect(workers[0]?.works).toEqual([
    {
      question: "first",
      put: [
        ["a", "1"],
        ["b", "1"],
      ],
      remove: [],
    },
    {
      question: "second",
      put: [
        ["a", "2"],
        ["c", "1"],
      ],
      remove: ["b"],
    },
  ]);
});

test("a worker that broke down is replaced, and the next has the whole desk", () => {
  const { lane, workers } = laneOfHandWorkers();
  const [first, second] = [jobWith("first", { a: "1" }), jobWith("second", { a: "1" })];
  lane.add(first.job);
  lane.add(second.job);
  workers[0]?.say({ broke: "unreachable" });
  expect(first.outcomes).toEqual([{ broke: "unreachable" }]);
  expect(workers[0]?.ended).toBe(true);
  expect(workers[1]?.works).toEqual([{ question: "second", put: [["a", "1"]], remove: [] }]);
  workers[1]?.say({ answer: "two" });
  expect(second.outcomes).toEqual([{ answer: "two" }]);
});

test("giving up the question at work ends its worker; what it still says is not heard", () => {
  const { lane, workers } = laneOfHandWorkers();
  const [first, second] = [jobWith("first"), jobWith("second")];
  lane.add(first.job);
  lane.add(second.job);
  lane.giveUp(first.job);
  expect(workers[0]?.ended).toBe(true);
  workers[0]?.say({ answer: "one" });
  workers[1]?.say({ answer: "two" });
  expect(first.outcomes).toEqual([]);
  expect(second.outcomes).toEqual([{ answer: "two" }]);
});

test("giving up a question that waits leaves the one at work alone", () => {
  const { lane, workers } = laneOfHandWorkers();
  const [first, second] = [jobWith("first"), jobWith("second")];
  lane.add(first.job);
  lane.add(second.job);
  lane.giveUp(second.job);
  workers[0]?.say({ answer: "one" });
  expect(first.outcomes).toEqual([{ answer: "one" }]);
  expect(second.outcomes).toEqual([]);
  expect(workers[0]?.works.length).toBe(1);
});

test("where the module cannot be compiled every question learns why", async () => {
  const lane = new Lane(() => new HandWorker(), Promise.reject(new Error("no WebAssembly")));
  const { job, outcomes } = jobWith("first");
  lane.add(job);
  await expect.poll(() => outcomes).toEqual([{ broke: "Error: no WebAssembly" }]);
});

test("where no worker can be started every question learns why", () => {
  const lane = new Lane(() => {
    throw new Error("no workers here");
  }, noModule);
  const { job, outcomes } = jobWith("first");
  lane.add(job);
  expect(outcomes).toEqual([{ broke: "Error: no workers here" }]);
});
