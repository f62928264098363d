import { cellKey, type Area, type Book, type CellValue } from "../model";
import { parseArea } from "../file/address";

/** Names by which an issue copy is known, wherever its sheet is moved or whatever it is called. */
export const markName = "StillairIssueMark";
export const formulasName = "StillairFrozenFormulas";

/** How a frozen formula was stored: filling cells as far as its result goes, in braces over fixed cells, or in one cell. */
export type FrozenKind = "spilling" | "in braces" | "one cell";

/** One line of the list of frozen formulas. */
export interface ListedFormula {
  readonly sheet: string;
  readonly area: Area;
  readonly kind: FrozenKind;
  /** As it is typed in Excel, with its "=". */
  readonly formula: string;
}

/** What an issue copy says about itself. */
export interface IssueMark {
  /** The index of the sheet that holds the mark and the list. */
  readonly sheet: number;
  /** yyyy-mm-dd. */
  readonly issued: string;
  readonly methodVersion: string;
  /** 64 hexadecimal digits: compare it with fingerprintOf(book). */
  readonly fingerprint: string;
  readonly formulas: readonly ListedFormula[];
}

/** The labels of the mark's block; the values stand two columns to the right. */
export const markLabels = { issued: "Issued on", methodVersion: "Method version", fingerprint: "Fingerprint" } as const;

/** Columns of the list, counted from its first. */
const listColumns = { sheet: 0, cell: 1, kind: 2, what: 3, formula: 4, value: 5 } as const;

/**
 * Reads the mark of an issue copy, undefined where the book is none. To review one: compare `fingerprint` with fingerprintOf(book); where
 * they differ, a typed cell, a result, a formula or the list was changed after the issue. Then evaluate withFrozenFormulas(book), in which
 * the listed formulas stand in their cells again, to see which frozen value is not what its formula gives.
 */
export function readIssueMark(book: Book): IssueMark | undefined {
  const block = areaOfName(book, markName);
  const list = areaOfName(book, formulasName);
  if (!block || !list) return undefined;
  const text = (row: number, column: number): string =>
    textOf(book.sheets[block.sheet]?.cells.get(cellKey(row, column))?.value);
  const values = new Map<string, string>();
  for (let row = block.top; row <= block.bottom; row += 1) values.set(text(row, block.left), text(row, block.left + 2));
  const formulas: ListedFormula[] = [];
  for (let row = list.top + 1; row <= list.bottom; row += 1) {
    const entry = (column: keyof typeof listColumns): string => text(row, list.left + listColumns[column]);
    const area = parseArea(entry("cell"));
    if (!area) continue;
    const kind = (["spilling", "in braces"] as const).find((one) => one === entry("kind")) ?? "one cell";
    formulas.push({ sheet: entry("sheet"), area, kind, formula: entry("formula") });
  }
  return {
    sheet: block.sheet,
    issued: values.get(markLabels.issued) ?? "",
    methodVersion: values.get(markLabels.methodVersion) ?? "",
    fingerprint: (values.get(markLabels.fingerprint) ?? "").replace(/\s/g, "").toLowerCase(),
    formulas,
  };
}

const textOf = (value: CellValue | undefined): string =>
  typeof value === "string" ? value : typeof value === "number" ? String(value) : "";

function areaOfName(book: Book, wanted: string): (Area & { readonly sheet: number }) | undefined {
  const text = book.names.find(({ name }) => name.toLowerCase() === wanted.toLowerCase())?.text ?? "";
  const match = /^(?:'((?:[^']|'')+)'|([^!']+))!(.+)$/.exec(text);
  const sheet = book.sheets.findIndex(({ name }) => name === (match?.[1]?.replaceAll("''", "'") ?? match?.[2]));
  const area = parseArea(match?.[3] ?? "");
  return sheet >= 0 && area ? { sheet, ...area } : undefined;
}
