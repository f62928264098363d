import { parseArea } from "../book/address";
import { recallFormulas } from "../book/formulas";
import { SharedFormula } from "../file/sheet/formulas";
import { toStoredForm, toTypedForm } from "../formula/parse/formula-text";
import { columnsOf, rowsOf, sizeOf } from "../book/area";
import { type Area, type Book, type Cell, buildCellKey, type CellValue, type Formula, type Sheet } from "../model";

/** Names that identify an issue copy, wherever its sheet is moved or whatever it is called. */
export const markName = "StillairIssueMark";
export const formulasName = "StillairFrozenFormulas";

/** What an issue copy says about itself. */
export interface IssueMark {
  /** The index of the sheet that holds the mark and the list. */
  readonly sheet: number;
  /** yyyy-mm-dd. */
  readonly issued: string;
  readonly methodVersion: string;
  /** 64 hexadecimal digits: compare it with computeFingerprint(book). */
  readonly fingerprint: string;
  /** The edge of the fingerprint's rounding steps; undefined if its form is not this version's. */
  readonly edge: number | undefined;
  /** One entry per frozen formula, however they share lines. */
  readonly formulas: readonly ListedFormula[];
  /** The keys of the cells holding the fingerprint and its form, which it does not cover. */
  readonly ownCells: ReadonlySet<number>;
}

/** The labels of the mark's block; the values are two columns to the right. */
export const markLabels = {
  issued: "Issued on",
  methodVersion: "Method version",
  fingerprint: "Fingerprint",
  form: "Form of the fingerprint",
} as const;

/** The form of a fingerprint as written in the mark. */
export const formatForm = (edge: number): string => `3, edge ${edge}`;

/** Columns of the list, counted from its first. */
const listColumns = { sheet: 0, cells: 1, count: 2, kind: 3, formula: 5 } as const;

/**
 * Reads the mark of an issue copy; undefined if the book is not one. To review one: compare `fingerprint` with computeFingerprint(book); if
 * they differ, a typed cell, a result, a formula, a name or the list was changed after issue. Then evaluate withFrozenFormulas(book), with
 * the listed formulas back in their cells, to see which frozen value is not what its formula gives.
 */
export function readIssueMark(book: Book): IssueMark | undefined {
  const names = recallFormulas(book);
  const [block] = names.listNamedAreas(markName);
  const [list] = names.listNamedAreas(formulasName);
  if (!block || !list) return undefined;
  const readText = (row: number, column: number): string =>
    toPlainText(book.sheets[block.sheet]?.cells.get(buildCellKey(row, column))?.value);
  const values = new Map<string, string>();
  const ownCells = new Set<number>();
  for (let row = block.top; row <= block.bottom; row += 1) {
    const label = readText(row, block.left);
    values.set(label, readText(row, block.left + 2));
    if (label === markLabels.fingerprint || label === markLabels.form) ownCells.add(buildCellKey(row, block.left + 2));
  }
  const formulas: ListedFormula[] = [];
  for (let row = list.top + 1; row <= list.bottom; row += 1) {
    const readEntry = (column: keyof typeof listColumns): string => readText(row, list.left + listColumns[column]);
    const area = parseArea(readEntry("cells"));
    if (!area) continue;
    const [sheet, kind, formula] = [readEntry("sheet"), readEntry("kind"), readEntry("formula")];
    formulas.push(...readFormulas({ sheet, area, count: Number(readEntry("count")), kind, formula }));
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

/** Whether a book was an issue copy, but the names that locate its mark, or the sheet they refer to, are gone. */
export const hasLostMark = (book: Book): boolean =>
  readIssueMark(book) === undefined &&
  (book.names.some(({ name }) => [markName, formulasName].includes(name)) || book.sheets.some(showsFingerprint));

/** The label of a fingerprint with one beside it. */
function showsFingerprint({ cells }: Book["sheets"][number]): boolean {
  for (const { row, column, value } of cells.values()) {
    if (value !== markLabels.fingerprint) continue;
    const beside = toPlainText(cells.get(buildCellKey(row, column + 2))?.value);
    if (/^[0-9a-f]{64}$/i.test(beside.replace(/\s/g, ""))) return true;
  }
  return false;
}

const toPlainText = (value: CellValue | undefined): string =>
  typeof value === "string" ? value : typeof value === "number" ? String(value) : "";

const kinds = ["spilling", "in braces", "one cell"] as const;
/** How a frozen formula was stored: spilling as far as its result extends, in braces over fixed cells, or in one cell. */
export type FrozenKind = (typeof kinds)[number];

/** A frozen formula. */
export interface ListedFormula {
  readonly sheet: string;
  /** The cells it filled. */
  readonly area: Area;
  readonly kind: FrozenKind;
  /** As typed in Excel, with its "=". */
  readonly formula: string;
}

/** A line of the list: copies of one formula in every cell of an area, or in every row or column that each fills. */
interface FormulaLine {
  readonly sheet: string;
  /** All cells filled by the formulas of the line. */
  readonly area: Area;
  readonly count: number;
  /** The kind as the list writes it (describeKind). */
  readonly kind: string;
  /** That of the first cell. */
  readonly formula: string;
}

/** The kind, and for several formulas that each fill more than one cell, how many: "spilling, 1 × 3 each" is one row, three columns. */
export function describeKind(kind: FrozenKind, count: number, each: Area): string {
  const isCell = rowsOf(each) === 1 && columnsOf(each) === 1;
  return count === 1 || isCell ? kind : `${kind}, ${rowsOf(each)} × ${columnsOf(each)} each`;
}

/** No genuine list fills more cells. */
const mostCells = 4_000_000;

/** The formulas of a line, each with its own cells; none if the line does not list frozen formulas. */
function readFormulas({ sheet, area, count, kind: text, formula }: FormulaLine): ListedFormula[] {
  const [, name, down, across] = /^(.*?)(?:, (\d+) × (\d+) each)?$/.exec(text) ?? [];
  const kind = kinds.find((one) => one === name);
  if (kind === undefined || sizeOf(area) > mostCells) return [];
  if (count === 1) return [{ sheet, area, kind, formula }];
  const [height, width] = [Number(down ?? 1), Number(across ?? 1)];
  if (!(height > 0 && width > 0) || count * height * width !== sizeOf(area)) return [];
  const first = new SharedFormula(toStoredForm(formula), area.top, area.left);
  const found: ListedFormula[] = [];
  for (let top = area.top; top <= area.bottom; top += height)
    for (let left = area.left; left <= area.right; left += width)
      found.push({
        sheet,
        area: { top, left, bottom: top + height - 1, right: left + width - 1 },
        kind,
        formula: toTypedForm(first.translateTo(top, left)),
      });
  return found;
}

/** A number in the fingerprint and its number of significant digits. */
export interface Counted {
  readonly value: number;
  readonly digits: number;
}

/** The number of positions within a step tried as its edge. */
const edges = 200;

/**
 * A number truncated to `digits` significant ones, in steps whose edges are at one of 200 positions. Programs that save a workbook keep 15 digits and
 * round a following 5 up or down; if no number is near an edge, all of them get the same step.
 */
export function roundToStep(value: number, digits: number, edge: number): string {
  const { steps, power } = splitIntoSteps(value, digits);
  const text = `${value < 0 ? "-" : ""}${Math.floor(steps + shift(edge))}e${power}`;
  return String(Number(text) || 0);
}

/** The edge furthest from all the numbers. */
export function chooseEdge(numbers: readonly Counted[]): number {
  const fractions = Float64Array.from(
    new Set(numbers.map(({ value, digits }) => splitIntoSteps(value, digits).steps % 1)),
  );
  let [best, furthest] = [0, -1];
  for (let edge = 0; edge < edges; edge += 1) {
    let nearest = 1;
    for (const fraction of fractions) {
      const place = (fraction + shift(edge)) % 1;
      nearest = Math.min(nearest, place, 1 - place);
    }
    if (nearest > furthest) [best, furthest] = [edge, nearest];
  }
  return best;
}

const shift = (edge: number): number => (edge + 0.5) / edges;

function splitIntoSteps(value: number, digits: number): { readonly steps: number; readonly power: number } {
  const [mantissa = "0", exponent = "0"] = Math.abs(value).toExponential(14).split("e");
  return { steps: Number(mantissa) * Number(`1e${digits - 1}`), power: Number(exponent) - digits + 1 };
}

/**
 * The book with the listed formulas of an issue copy back in their cells, every value as stored: the book before issue,
 * for anyone with the add-in. The same book if it is not an issue copy.
 */
export function withFrozenFormulas(book: Book): Book {
  const mark = readIssueMark(book);
  if (!mark) return book;
  const sheets = book.sheets.map((sheet): Sheet => {
    const listed = mark.formulas.filter((one) => one.sheet === sheet.name);
    if (listed.length === 0) return sheet;
    const cells = new Map(sheet.cells);
    for (const { area, kind, formula } of listed) {
      const key = buildCellKey(area.top, area.left);
      const own: Cell = cells.get(key) ?? { row: area.top, column: area.left, value: null, format: "General" };
      cells.set(key, { ...own, formula: readFormula({ area, kind, formula }) });
    }
    return { ...sheet, cells };
  });
  return { ...book, sheets };
}

function readFormula({ area, kind, formula }: Omit<ListedFormula, "sheet">): Formula {
  const text = toStoredForm(formula);
  if (kind === "one cell") return { text };
  return kind === "spilling" ? { text, array: area, dynamic: true } : { text, array: area };
}
