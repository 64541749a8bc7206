import { describe, expect, it } from "vitest";
import type { Fault } from "../engine.ts";
import { filesNaming, layerPath, missingLayers, placeFiles } from "./layers.ts";

const kText = 'name = "x"\nbased_on = ["dunlin.toml", "kits/a.toml"]\n';

function fault(line: number, column: number, length: number): Fault {
  return {
    severity: "error",
    file: "t/x.toml",
    line,
    column,
    length,
    what: "",
    fix: "",
    source_line: "",
  };
}

it("a layer counts from the folder of the file that names it", () => {
  expect(layerPath("trucks/guided.toml", "kits/keeper.toml")).toBe("trucks/kits/keeper.toml");
  expect(layerPath("trucks/mine/a.toml", "../dunlin.toml")).toBe("trucks/dunlin.toml");
  expect(layerPath("a.toml", "./b.toml")).toBe("b.toml");
  expect(layerPath("a.toml", "../b.toml")).toBe("../b.toml");
});

describe("missing layers", () => {
  const texts = new Map([["t/x.toml", kText]]);

  it("are those that faults point at", () => {
    expect(missingLayers([fault(2, 13, 13), fault(2, 28, 13)], texts)).toEqual([
      "t/dunlin.toml",
      "t/kits/a.toml",
    ]);
  });

  it("are none where a fault points at something else, or the file is there", () => {
    expect(missingLayers([fault(1, 8, 3)], texts)).toEqual([]);
    expect(missingLayers([fault(2, 13, 13)], new Map([...texts, ["t/dunlin.toml", ""]]))).toEqual(
      [],
    );
  });
});

describe("placing files", () => {
  it("puts a file that has lost its folder where it is wanted", () => {
    const placed = placeFiles([{ path: "a.toml", text: "1" }], ["t/kits/a.toml"]);
    expect([...placed]).toEqual([["t/kits/a.toml", "1"]]);
  });

  it("leaves a file that nothing waits for where it is", () => {
    expect([...placeFiles([{ path: "b.toml", text: "2" }], ["t/kits/a.toml"])]).toEqual([
      ["b.toml", "2"],
    ]);
  });

  it("prefers the very path", () => {
    const placed = placeFiles([{ path: "a.toml", text: "1" }], ["a.toml", "kits/a.toml"]);
    expect([...placed.keys()]).toEqual(["a.toml"]);
  });
});

it("tells who else names a layer", () => {
  const texts = new Map([
    ["t/a.toml", 'based_on = ["kits/k.toml"]'],
    ["t/b.toml", 'based_on = ["x.toml", "kits/k.toml"]'],
    ["t/kits/c.toml", 'based_on = ["kits/k.toml"]'],
  ]);
  expect(filesNaming("t/kits/k.toml", texts)).toEqual(["t/a.toml", "t/b.toml"]);
});
