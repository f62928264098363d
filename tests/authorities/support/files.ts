import { readFileSync } from "node:fs";

/** Text of a file beside the tests, by its path from this folder's parent. */
export function authorityText(path: string): string {
  return readFileSync(new URL(`../${path}`, import.meta.url), "utf8");
}

/** Rows of a CSV file of plain numbers and words under one line of headings; numbers come as numbers. */
export function authorityTable(path: string): Record<string, number | string>[] {
  const [head, ...lines] = authorityText(path).trim().split("\n");
  if (head === undefined) throw new Error(`${path} is empty`);
  const names = head.split(",");
  return lines.map((line) => {
    const cells = line.split(",");
    if (cells.length !== names.length) throw new Error(`${path}: a row has ${cells.length} cells: ${line}`);
    return Object.fromEntries(
      names.map((name, index) => {
        const cell = cells[index] ?? "";
        return [name, cell !== "" && Number.isFinite(Number(cell)) ? Number(cell) : cell];
      }),
    );
  });
}

/** The numbers of one column; a word among them is an error. */
export function numbers(rows: readonly Record<string, number | string>[], name: string): number[] {
  return rows.map((row) => {
    const value = row[name];
    if (typeof value !== "number") throw new Error(`${name}: ${String(value)} is no number`);
    return value;
  });
}
