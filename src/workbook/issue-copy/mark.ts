import { cellKey, type Area, type Book, type CellValue } from "../model";
import { parseArea } from "../file/address";
import { formulasOfLine, type ListedFormula } from "./listed-formulas";
import { edges } from "./steps";

/** Names by which an issue copy is known, wherever its sheet is moved or whatever it is called. */
export const markName = "StillairIssueMark";
export const formulasName = "StillairFrozenFormulas";

/** What an issue copy says about itself. */
export interface IssueMark {
  /** The index of the sheet that holds the mark and the list. */
  readonly sheet: number;
  /** yyyy-mm-dd. */
  readonly issued: string;
  readonly methodVersion: string;
  /** 64 hexadecimal digits: compare it with fingerprintOf(book). */
  readonly fingerprint: string;
  /** Where the steps to which the fingerprint rounds have their edges; undefined where its form is not the one of this version. */
  readonly edge: number | undefined;
  /** One entry for each frozen formula, however they share lines. */
  readonly formulas: readonly ListedFormula[];
  /** The keys of the cells that hold the fingerprint and its form, which it does not cover. */
  readonly ownCells: ReadonlySet<number>;
}

/** The labels of the mark's block; the values stand two columns to the right. */
export const markLabels = {
  issued: "Issued on",
  methodVersion: "Method version",
  fingerprint: "Fingerprint",
  form: "Form of the fingerprint",
} as const;

/** The form of a fingerprint as the mark tells it. */
export const formText = (edge: number): string => `3, edge ${edge}`;

/** Columns of the list, counted from its first. */
const listColumns = { sheet: 0, cells: 1, count: 2, kind: 3, formula: 5 } as const;

/**
 * Reads the mark of an issue copy, undefined where the book is none. To review one: compare `fingerprint` with fingerprintOf(book); where
 * they differ, a typed cell, a result, a formula, a name or the list was changed after the issue. Then evaluate withFrozenFormulas(book), in
 * which the listed formulas stand in their cells again, to see which frozen value is not what its formula gives.
 */
export function readIssueMark(book: Book): IssueMark | undefined {
  const block = areaOfName(book, markName);
  const list = areaOfName(book, formulasName);
  if (!block || !list) return undefined;
  const text = (row: number, column: number): string =>
    textOf(book.sheets[block.sheet]?.cells.get(cellKey(row, column))?.value);
  const values = new Map<string, string>();
  const ownCells = new Set<number>();
  for (let row = block.top; row <= block.bottom; row += 1) {
    const label = text(row, block.left);
    values.set(label, text(row, block.left + 2));
    if (label === markLabels.fingerprint || label === markLabels.form) ownCells.add(cellKey(row, block.left + 2));
  }
  const formulas: ListedFormula[] = [];
  for (let row = list.top + 1; row <= list.bottom; row += 1) {
    const entry = (column: keyof typeof listColumns): string => text(row, list.left + listColumns[column]);
    const area = parseArea(entry("cells"));
    if (!area) continue;
    const [sheet, kind, formula] = [entry("sheet"), entry("kind"), entry("formula")];
    formulas.push(...formulasOfLine({ sheet, area, count: Number(entry("count")), kind, formula }));
  }
  const edge = Number(/^3, edge (\d+)$/.exec(values.get(markLabels.form) ?? "")?.[1]);
  return {
    sheet: block.sheet,
    issued: values.get(markLabels.issued) ?? "",
    methodVersion: values.get(markLabels.methodVersion) ?? "",
    fingerprint: (values.get(markLabels.fingerprint) ?? "").replace(/\s/g, "").toLowerCase(),
    edge: edge < edges ? edge : undefined,
    formulas,
    ownCells,
  };
}

/** Whether a book was an issue copy, but the names by which its mark is found, or the sheet that they lead to, are gone. */
export const hasLostMark = (book: Book): boolean =>
  readIssueMark(book) === undefined &&
  (book.names.some(({ name }) => [markName, formulasName].includes(name)) || book.sheets.some(showsFingerprint));

/** The label of a fingerprint with one beside it. */
function showsFingerprint({ cells }: Book["sheets"][number]): boolean {
  for (const { row, column, value } of cells.values()) {
    if (value !== markLabels.fingerprint) continue;
    const beside = textOf(cells.get(cellKey(row, column + 2))?.value);
    if (/^[0-9a-f]{64}$/i.test(beside.replace(/\s/g, ""))) return true;
  }
  return false;
}

const textOf = (value: CellValue | undefined): string =>
  typeof value === "string" ? value : typeof value === "number" ? String(value) : "";

function areaOfName(book: Book, wanted: string): (Area & { readonly sheet: number }) | undefined {
  const text = book.names.find(({ name }) => name.toLowerCase() === wanted.toLowerCase())?.text ?? "";
  const match = /^(?:'((?:[^']|'')+)'|([^!]+))!(.+)$/.exec(text);
  const sheet = book.sheets.findIndex(({ name }) => name === (match?.[1]?.replaceAll("''", "'") ?? match?.[2]));
  const area = parseArea(match?.[3] ?? "");
  return sheet >= 0 && area ? { sheet, ...area } : undefined;
}
