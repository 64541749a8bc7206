import { expect, test } from "vitest";
import { isFailure } from "../engine.ts";
import { compiledEngine } from "./compiled.ts";
import type { WorkerLike } from "./lane.ts";
import type { FromWorker, ToWorker } from "./messages.ts";

/** Echoes what it was asked, with its desk, once told to. */
class EchoWorker implements WorkerLike {
  static all: EchoWorker[] = [];
  onmessage: ((event: MessageEvent<FromWorker>) => void) | null = null;
  onerror = null;
  #asked: string[] = [];
  #desk = new Map<string, string>();

  constructor() {
    EchoWorker.all.push(this);
  }
  postMessage(message: ToWorker): void {
    if (!("question" in message)) return;
    for (const path of message.remove) this.#desk.delete(path);
    for (const [path, text] of message.put) this.#desk.set(path, text);
    const echo = { echo: JSON.parse(message.question), desk: Object.fromEntries(this.#desk) };
    this.#asked.push(JSON.stringify(echo));
  }
  terminate(): void {}
  answerOne(): void {
    const answer = this.#asked.shift();
    if (answer) this.onmessage?.(new MessageEvent("message", { data: { answer } }));
  }
  breakDown(): void {
    this.onmessage?.(new MessageEvent("message", { data: { broke: "unreachable" } }));
  }
}

function echoEngine() {
  EchoWorker.all = [];
  return compiledEngine({ startWorker: () => new EchoWorker(), wasm: new Promise(() => {}) });
}

const check = { ask: "check", file: "a" } as const;
const pose = { ask: "pose", file: "a" } as const;

test("a question sees the desk as it was when it was asked", async () => {
  const engine = echoEngine();
  engine.put("a", "1");
  engine.put("b", "1");
  const first = engine.ask(pose);
  engine.remove("b");
  engine.put("a", "2");
  const second = engine.ask(pose);
  EchoWorker.all[0]?.answerOne();
  EchoWorker.all[0]?.answerOne();
  expect(await first).toEqual({ echo: pose, desk: { a: "1", b: "1" } });
  expect(await second).toEqual({ echo: pose, desk: { a: "2" } });
});

test("quick questions do not wait for long ones", async () => {
  const engine = echoEngine();
  engine.ask(check);
  const quick = engine.ask(pose);
  EchoWorker.all[1]?.answerOne();
  expect(await quick).toMatchObject({ echo: pose });
});

test("a breakdown is a failure like those that the engine tells itself", async () => {
  const engine = echoEngine();
  const answer = engine.ask(check);
  EchoWorker.all[0]?.breakDown();
  const failure = await answer;
  expect(isFailure(failure) && failure.faults[0]?.what).toBe("the engine stopped: unreachable");
});

test("giving up rejects with the signal's reason, and the next question is answered", async () => {
  const engine = echoEngine();
  const control = new AbortController();
  const given = engine.ask(check, { signal: control.signal });
  control.abort();
  await expect(given).rejects.toThrow(/abort/i);
  await expect(engine.ask(check, { signal: control.signal })).rejects.toThrow(/abort/i);
  const next = engine.ask(check);
  EchoWorker.all[1]?.answerOne();
  expect(await next).toMatchObject({ echo: check });
});
