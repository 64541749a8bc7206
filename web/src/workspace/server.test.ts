import { describe, expect, it } from "vitest";
import { Server } from "./server.ts";

function answering(routes: Record<string, () => Response>) {
  const asked: { path: string; options: RequestInit | undefined }[] = [];
  const server = new Server(async (path, options) => {
    asked.push({ path, options });
    const route = routes[path];
    if (!route) throw new Error(`nothing at ${path}`);
    return route();
  });
  return { server, asked };
}

function json(value: unknown, status = 200): Response {
  return Response.json(value, { status });
}

describe("the server's files", () => {
  it("are read, all of them", async () => {
    const file = { path: "kits/a b.toml", text: "x", version: "v1" };
    const { server } = answering({
      "/files": () => json({ folder: "trucks", files: [{ path: file.path, size: 1 }] }),
      "/files/kits/a%20b.toml": () => json(file),
    });
    expect(await server.readAll()).toEqual([file]);
  });

  it("are none where nobody serves them", async () => {
    expect(await answering({}).server.readAll()).toBeUndefined();
    const page = new Response("<html>", { headers: { "content-type": "text/html" } });
    expect(await answering({ "/files": () => page }).server.readAll()).toBeUndefined();
  });
});

describe("saving", () => {
  it("sends the version that was read and takes the new one", async () => {
    const { server, asked } = answering({ "/files/a.toml": () => json({ version: "v2" }) });
    expect(await server.write("a.toml", "text", "v1")).toEqual({ saved: true, version: "v2" });
    expect(JSON.parse(String(asked[0]?.options?.body))).toEqual({ text: "text", version: "v1" });
  });

  it("tells what a file holds that changed underneath", async () => {
    const { server } = answering({
      "/files/a.toml": () => json({ text: "theirs", version: "v9" }, 409),
    });
    expect(await server.write("a.toml", "mine", "v1")).toEqual({
      saved: false,
      text: "theirs",
      version: "v9",
    });
  });

  it("fails in the server's words", async () => {
    const { server } = answering({ "/files/a.toml": () => json({ error: "too large" }, 413) });
    await expect(server.write("a.toml", "x", "v1")).rejects.toThrow("too large");
  });
});
