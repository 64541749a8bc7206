import { describe, expect, it } from "vitest";
import { type PageData, readPageData } from "./page_data.ts";

const examples: PageData = {
  files: { "a.toml": "", "b.toml": "" },
  trucks: ["a.toml", "b.toml"],
  shop: { name: "", words: "" },
  units: "mm",
  pictures: [],
};

function page(change: object): string {
  return JSON.stringify({ ...examples, ...change });
}

describe("what the program put into the page", () => {
  it("is the examples where nothing was put in", () => {
    expect(readPageData("null", examples)).toBe(examples);
  });

  it("is read as it is", () => {
    const picture = { truck: 1, height_mm: 12, svg: "<svg/>", words: "tall" };
    const read = readPageData(page({ units: "inch", pictures: [picture] }), examples);
    expect(read.units).toBe("inch");
    expect(read.pictures).toEqual([picture]);
  });

  it("may leave out the shop and the pictures", () => {
    const read = readPageData(page({ shop: undefined, pictures: undefined }), examples);
    expect(read.shop).toEqual({ name: "", words: "" });
    expect(read.pictures).toEqual([]);
  });

  it("is refused, in words, where it makes no sense", () => {
    expect(() => readPageData("[]", examples)).toThrow("no page data");
    expect(() => readPageData(page({ files: undefined }), examples)).toThrow("no truck files");
    expect(() => readPageData(page({ files: { "a.toml": 3 } }), examples)).toThrow("a.toml");
    expect(() => readPageData(page({ trucks: ["a.toml"] }), examples)).toThrow("two trucks");
    expect(() => readPageData(page({ trucks: ["a.toml", "c.toml"] }), examples)).toThrow("c.toml");
  });

  it("drops a picture that is none", () => {
    expect(readPageData(page({ pictures: [{ truck: 0 }, null, 3] }), examples).pictures).toEqual(
      [],
    );
  });
});
