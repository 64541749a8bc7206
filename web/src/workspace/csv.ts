// Tables as CSV (RFC 4180): comma, CRLF, quotes doubled.

export type Cell = string | number | null;

function field(cell: Cell): string {
  if (cell === null) return "";
  const text = String(cell);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

export function csvText(rows: readonly (readonly Cell[])[]): string {
  return rows.map((row) => `${row.map(field).join(",")}\r\n`).join("");
}

/** Strips as columns over height, with the engine's own keys and units. */
export function stripsCsv(
  heights_mm: readonly number[],
  columns: readonly { readonly name: string; readonly values: readonly (number | null)[] }[],
): string {
  const head = ["height_mm", ...columns.map((column) => column.name)];
  const rows = heights_mm.map((height, i) => [
    height,
    ...columns.map((column) => column.values[i] ?? null),
  ]);
  return csvText([head, ...rows]);
}
