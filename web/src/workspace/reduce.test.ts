import { describe, expect, it } from "vitest";
import { type Action, reduce } from "./reduce.ts";
import { kStart, type State, textsBefore, unsaved } from "./state.ts";

function through(state: State, ...actions: Action[]): State {
  return actions.reduce(reduce, state);
}

const opened = through(kStart, {
  do: "open",
  source: "opened",
  texts: new Map([
    ["truck.toml", "a = 1"],
    ["kit.toml", "b = 1"],
  ]),
  file: "truck.toml",
  replace: true,
});

function tried(name: string, value: string, burst: string): Action {
  return { do: "try", settings: new Map([[name, value]]), burst };
}

function written(state: State, text: string): Action {
  return { do: "written", trial: state.trial, texts: new Map([["kit.toml", text]]) };
}

describe("opening", () => {
  it("has nothing to undo and nothing unsaved", () => {
    expect(opened.file).toBe("truck.toml");
    expect(opened.editing).toBe("truck.toml");
    expect(opened.past).toEqual([]);
    expect(unsaved(opened)).toEqual([]);
  });

  it("a file that joins leaves the truck and its undo as they are", () => {
    const typed = through(opened, { do: "type", path: "truck.toml", text: "a = 2" });
    const joined = through(typed, {
      do: "open",
      source: "opened",
      texts: new Map([["other.toml", "c"]]),
      file: undefined,
      replace: false,
    });
    expect(joined.file).toBe("truck.toml");
    expect(joined.past).toHaveLength(1);
    expect(joined.texts.get("truck.toml")).toBe("a = 2");
    expect(joined.texts.get("other.toml")).toBe("c");
  });
});

describe("a drag", () => {
  it("is one step, however often it moves", () => {
    const moved = through(opened, tried("p.x", "1 mm", "drag"), tried("p.x", "2 mm", "drag"));
    expect(moved.past).toHaveLength(1);
    expect([...moved.trial]).toEqual([["p.x", "2 mm"]]);
    expect(textsBefore(moved)).toBe(opened.texts);
  });

  it("is undone at once when its text is written", () => {
    const moved = through(opened, tried("p.x", "1 mm", "drag"));
    const done = through(moved, written(moved, "b = 2"));
    expect(done.texts.get("kit.toml")).toBe("b = 2");
    expect(done.trial.size).toBe(0);
    expect(unsaved(done)).toEqual(["kit.toml"]);
    const undone = through(done, { do: "undo" });
    expect(undone.texts.get("kit.toml")).toBe("b = 1");
    expect(through(undone, { do: "redo" }).texts.get("kit.toml")).toBe("b = 2");
  });

  it("goes on after its first part was written: still one step", () => {
    const moved = through(opened, tried("p.x", "1 mm", "nudge"));
    const half = through(moved, written(moved, "b = 2"), tried("p.x", "2 mm", "nudge"));
    const whole = through(half, written(half, "b = 3"));
    expect(whole.past).toHaveLength(1);
    expect(through(whole, { do: "undo" }).texts.get("kit.toml")).toBe("b = 1");
  });

  it("an answer about an older trial changes nothing", () => {
    const moved = through(opened, tried("p.x", "1 mm", "drag"));
    const late = written(moved, "b = 2");
    const further = through(moved, tried("p.x", "3 mm", "drag"));
    expect(through(further, late)).toBe(further);
  });

  it("given up leaves no step behind", () => {
    const given = through(opened, tried("p.x", "1 mm", "drag"), { do: "give up" });
    expect(given.past).toEqual([]);
    expect(given.trial.size).toBe(0);
  });

  it("given up after a written part keeps that part and its step", () => {
    const moved = through(opened, tried("p.x", "1 mm", "nudge"));
    const half = through(moved, written(moved, "b = 2"), tried("p.x", "2 mm", "nudge"));
    const given = through(half, { do: "give up" });
    expect(given.past).toHaveLength(1);
    expect(given.texts.get("kit.toml")).toBe("b = 2");
  });

  it("back where it began leaves nothing tried and no step behind", () => {
    const back: Action = { do: "try", settings: new Map(), burst: "drag", replace: true };
    const moved = through(opened, tried("p.x", "1 mm", "drag"), back);
    expect(moved.trial.size).toBe(0);
    expect(through(moved, { do: "give up" }).past).toEqual([]);
  });

  it("a new one after undo drops what could be redone", () => {
    const moved = through(opened, tried("p.x", "1 mm", "drag"));
    const undone = through(moved, written(moved, "b = 2"), { do: "undo" });
    expect(through(undone, tried("p.x", "5 mm", "again")).future).toEqual([]);
  });
});

describe("typing", () => {
  it("is one step until it rests", () => {
    const type = (text: string): Action => ({ do: "type", path: "truck.toml", text });
    const typed = through(
      opened,
      type("a = 12"),
      type("a = 123"),
      { do: "rest" },
      type("a = 1234"),
    );
    expect(typed.past).toHaveLength(2);
    expect(through(typed, { do: "undo" }).texts.get("truck.toml")).toBe("a = 123");
    expect(through(typed, { do: "undo" }, { do: "undo" }).texts).toBe(opened.texts);
  });

  it("of what is there already is no step", () => {
    expect(through(opened, { do: "type", path: "truck.toml", text: "a = 1" })).toBe(opened);
  });
});

describe("undo", () => {
  it("with nothing to undo changes nothing", () => {
    expect(through(opened, { do: "undo" })).toBe(opened);
    expect(through(opened, { do: "redo" })).toBe(opened);
  });
});

describe("saving", () => {
  const typed = through(opened, { do: "type", path: "kit.toml", text: "b = 9" });

  it("makes what was saved the stored text and keeps undo", () => {
    const done = through(typed, { do: "saved", path: "kit.toml", text: "b = 9", version: "v2" });
    expect(unsaved(done)).toEqual([]);
    expect(done.versions.get("kit.toml")).toBe("v2");
    expect(unsaved(through(done, { do: "undo" }))).toEqual(["kit.toml"]);
  });

  it("what was typed while the save was on its way is unsaved", () => {
    const later = through(typed, { do: "type", path: "kit.toml", text: "b = 10" });
    const done = through(later, { do: "saved", path: "kit.toml", text: "b = 9" });
    expect(unsaved(done)).toEqual(["kit.toml"]);
  });

  it("theirs can be taken, and one's own comes back by undo", () => {
    const theirs = through(typed, {
      do: "take theirs",
      path: "kit.toml",
      text: "b = 7",
      version: "v3",
    });
    expect(theirs.texts.get("kit.toml")).toBe("b = 7");
    expect(unsaved(theirs)).toEqual([]);
    expect(through(theirs, { do: "undo" }).texts.get("kit.toml")).toBe("b = 9");
  });
});

it("a loose motion that is shown goes with the pose and ends with a change of the truck", () => {
  const loose = { name: "tie rod", angle_deg: 10 };
  const posed = through(opened, { do: "loosen", loose }, { do: "pose", change: { height_mm: 10 } });
  expect(posed.loose).toEqual(loose);
  expect(through(posed, tried("p.x", "1 mm", "drag")).loose).toBeUndefined();
  expect(through(posed, { do: "type", path: "kit.toml", text: "" }).loose).toBeUndefined();
  expect(through(posed, { do: "drawer", drawer: "limits" }).loose).toBeUndefined();
});

it("another truck starts level, with nothing selected", () => {
  const posed = through(
    opened,
    { do: "pose", change: { height_mm: 10 } },
    { do: "select", point: "a" },
  );
  const chosen = through(posed, { do: "choose truck", file: "kit.toml" });
  expect(chosen.pose.height_mm).toBe(0);
  expect(chosen.selected).toBeUndefined();
});
