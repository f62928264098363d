import { readdirSync, readFileSync } from "node:fs";
import { ErrorValue, type Book, type DefinedName, type ErrorCode } from "../../../src/workbook/model";
import { bookOf, sheet, type Content } from "../../workbook/formula/book";

/** What is kept of a workbook saved by Excel: formulas with the values that Excel stored for them, and the cells that they read. */
export interface Vector {
  readonly sheets: readonly { readonly name: string; readonly cells: Readonly<Record<string, Content>> }[];
  readonly names: readonly DefinedName[];
}

/** Vectors by the file names of their workbooks. */
export type Vectors = Readonly<Record<string, Vector>>;

/** The vectors as a file holds them, one line per row of a sheet: a change of a vector can then be read. */
export function textOfVectors(vectors: Vectors): string {
  const workbooks = Object.entries(vectors).map(([file, { sheets, names }]) => {
    const parts = sheets.map(({ name, cells }) => `{"name":${JSON.stringify(name)},"cells":{\n${linesOf(cells)}\n}}`);
    return `${JSON.stringify(file)}:{"sheets":[${parts.join(",")}],"names":${JSON.stringify(names)}}`;
  });
  return `{${workbooks.join(",\n")}}\n`;
}

function linesOf(cells: Readonly<Record<string, Content>>): string {
  const rows = new Map<string, [string, Content][]>();
  for (const entry of Object.entries(cells)) {
    const row = entry[0].replace(/\D/g, "");
    rows.set(row, [...(rows.get(row) ?? []), entry]);
  }
  const asError = (_: string, value: unknown) => (value instanceof ErrorValue ? { error: value.code } : value);
  return [...rows.values()].map((row) => JSON.stringify(Object.fromEntries(row), asError).slice(1, -1)).join(",\n");
}

/** The inverse of textOfVectors. */
function vectorsOfText(text: string): Vectors {
  return JSON.parse(text, (_, value: unknown) =>
    typeof value === "object" && value !== null && "error" in value ? new ErrorValue(value.error as ErrorCode) : value,
  ) as Vectors;
}

/** Every vector beside this file, as [folder/workbook, book]. */
export function excelBooks(): [string, Book][] {
  const folder = new URL(".", import.meta.url);
  const files = readdirSync(folder).filter((name) => name.endsWith(".json"));
  return files.flatMap((file) => {
    const vectors = vectorsOfText(readFileSync(new URL(file, folder), "utf8"));
    return Object.entries(vectors).map(([workbook, vector]): [string, Book] => [
      `${file.replace(".json", "")}/${workbook}`,
      bookOfVector(vector),
    ]);
  });
}

/** The evaluator's model of a vector. */
export function bookOfVector({ sheets, names }: Vector): Book {
  return bookOf(
    sheets.map(({ name, cells }) => sheet(name, cells)),
    { names },
  );
}
