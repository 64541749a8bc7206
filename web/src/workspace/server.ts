// The files of the folder that `axlewright serve` hands out.

export interface ServedFile {
  readonly path: string;
  readonly text: string;
  readonly version: string;
}

export type SaveResult =
  | { readonly saved: true; readonly version: string }
  /** The file changed underneath: what it holds now. */
  | { readonly saved: false; readonly text: string; readonly version: string };

type Fetch = (path: string, options?: RequestInit) => Promise<Response>;

function address(path: string): string {
  return `/files/${path.split("/").map(encodeURIComponent).join("/")}`;
}

/** What the server says is wrong, in its own words. */
async function refusal(response: Response): Promise<Error> {
  const told = await response.json().catch(() => undefined);
  return new Error(told?.error ?? `the server answers ${response.status}`);
}

export class Server {
  constructor(private readonly fetch: Fetch) {}

  /** All truck files of the folder; nothing where this page was not given out by such a server. */
  async readAll(): Promise<readonly ServedFile[] | undefined> {
    const response = await this.fetch("/files").catch(() => undefined);
    if (!response?.ok || !response.headers.get("content-type")?.includes("json")) return undefined;
    const list = await response.json();
    if (!Array.isArray(list?.files)) return undefined;
    const paths: string[] = list.files.map((file: { path: string }) => file.path);
    return Promise.all(paths.map((path) => this.read(path)));
  }

  async read(path: string): Promise<ServedFile> {
    const response = await this.fetch(address(path));
    if (!response.ok) throw await refusal(response);
    return response.json();
  }

  async write(path: string, text: string, version: string): Promise<SaveResult> {
    const response = await this.fetch(address(path), {
      method: "PUT",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ text, version }),
    });
    if (response.status === 409) return { saved: false, ...(await response.json()) };
    if (!response.ok) throw await refusal(response);
    return { saved: true, version: (await response.json()).version };
  }
}
