import { formatFullAddress } from "../book/address";
import type { EvaluatedCell, Evaluation } from "../formula/evaluation";
import type { CellPatch } from "../file/write/cell-edits";
import { type Book, buildCellKey, type CellValue, ErrorValue } from "../model";
import { ErrorReasons } from "./error-reasons";

/** An error value at its origin: no cell that its formula reads holds one. */
export interface ErrorOrigin {
  readonly cell: string;
  readonly error: ErrorValue;
  /** waiting: input is missing, and the form says which; gap: a deliberate NA() that no other formula reads, as for a chart. */
  readonly kind: "error" | "waiting" | "gap";
  /** Absent if the error is stored in the cell itself. */
  readonly formula?: string;
  /** Why, judging by the cells that the formula reads; absent if the error has its own reason, or none is known. */
  readonly why?: string;
  /** Further cells of the same array with the same error. */
  readonly alsoFilled: number;
  /** Further cells with the same error for the same reason. */
  readonly alike: readonly string[];
}

export interface CellErrors {
  readonly origins: readonly ErrorOrigin[];
  /** Computed cells that hold an error, gaps excluded. */
  readonly count: number;
  /** Those of them whose stored value is not an error. */
  readonly newCount: number;
  /** Gaps whose stored value is not an error. */
  readonly newGaps: number;
}

/** Where the error values of an evaluated workbook originate, and how many cells hold one. */
export function findErrors(
  book: Book,
  evaluation: Evaluation,
  set: readonly CellPatch[],
  valueAt: (sheet: number, row: number, column: number) => CellValue,
): CellErrors {
  const failing = evaluation.cells.flatMap((cell): Failing[] => {
    const error = cell.outcome.evaluated ? cell.outcome.value : null;
    if (!(error instanceof ErrorValue)) return [];
    const stored = book.sheets[cell.sheet]?.cells.get(buildCellKey(cell.row, cell.column));
    const text = cell.role === "formula" ? stored?.formula?.text : undefined;
    return [{ ...cell, error, kind: classifyError(cell, error, text), text, stored: stored?.value ?? null }];
  });
  const counted = failing.filter(({ kind }) => kind !== "gap");
  const isNew = ({ stored }: Failing): boolean => !(stored instanceof ErrorValue);
  return {
    origins: [
      ...findTypedErrors(book, evaluation, set),
      ...joinOrigins(findOrigins(failing, () => new ErrorReasons(book, evaluation, valueAt))),
    ],
    count: counted.length,
    newCount: counted.filter(isNew).length,
    newGaps: failing.filter((cell) => cell.kind === "gap" && isNew(cell)).length,
  };
}

type Failing = EvaluatedCell & {
  readonly error: ErrorValue;
  readonly kind: ErrorOrigin["kind"];
  readonly text: string | undefined;
  readonly stored: CellValue;
};

function classifyError(
  cell: EvaluatedCell,
  { code, reason }: ErrorValue,
  text: string | undefined,
): ErrorOrigin["kind"] {
  if (code !== "#N/A") return "error";
  if (reason !== "") return "waiting";
  return callsNA(text) && !cell.afterError && !cell.isErrorRead ? "gap" : "error";
}

/** Whether a formula can return #N/A deliberately: a gap in a chart, or a guard that refuses its input. */
function callsNA(text = ""): boolean {
  return /\bNA\(\s*\)/i.test(text.replace(/"[^"]*"/g, ""));
}

/**
 * A formula that read no error is the origin of its own. One that read errors may still add its own, as a column of which one row is wrong and
 * another is waiting: its reason is then found in no earlier cell, and is not that it was given an error.
 */
function findOrigins(failing: readonly Failing[], reasonsOf: () => ErrorReasons): Origin[] {
  let reasons: ErrorReasons | undefined;
  const known = new Set(failing.flatMap(({ readsError, error }) => (readsError ? [] : [error])));
  const found = new Map<string, Origin>();
  for (const cell of failing) {
    const { readsError, afterError, error, address, source, text, sheet, row } = cell;
    const { code, reason } = error;
    // A guard's NA() only repeats an error caught before it.
    const repeats = reason === "" && afterError && callsNA(text);
    const passedOn =
      repeats || (readsError && (reason === "" || known.has(error) || error.problem?.code === "cellError"));
    const key = `${source} ${code} ${reason}`;
    const same = found.get(key);
    if (same) found.set(key, { ...same, alsoFilled: same.alsoFilled + 1 });
    else if (!passedOn) {
      reasons ??= reasonsOf();
      if (text !== undefined && cell.kind !== "gap" && reasons.follows(cell, text, error)) continue;
      known.add(error);
      const isTold = reason === "" && text !== undefined && cell.kind !== "gap";
      const why = isTold ? reasons.explainError(cell, text, error) : undefined;
      const waits = code === "#N/A" && why !== undefined && why.isBlank;
      // A blank there may be due to the error it depends on.
      if (waits && afterError) continue;
      found.set(key, {
        cell: address,
        error,
        kind: waits ? "waiting" : cell.kind,
        alsoFilled: 0,
        alike: [],
        place: `${sheet},${row}`,
        ...(why !== undefined && { why: why.text }),
        ...(text !== undefined && { formula: text }),
      });
    }
  }
  return [...found.values()];
}

type Origin = ErrorOrigin & { readonly place: string };

/** Cells that fail for the same reason, as one line: the same words naming cells, or the same function message within one row. */
function joinOrigins(origins: readonly Origin[]): ErrorOrigin[] {
  const found = new Map<string, ErrorOrigin>();
  for (const { place, ...origin } of origins) {
    const { cell, error, kind, why } = origin;
    const told = why ?? (error.reason === "" || kind === "gap" ? cell : `${place} ${error.reason}`);
    const key = `${kind} ${error.code} ${told}`;
    const same = found.get(key);
    found.set(key, same ? { ...same, alike: [...same.alike, cell] } : origin);
  }
  return [...found.values()];
}

/** Error values typed or pasted into cells. */
function findTypedErrors(book: Book, evaluation: Evaluation, set: readonly CellPatch[]): ErrorOrigin[] {
  const found: ErrorOrigin[] = [];
  const add = (sheet: number, row: number, column: number, value: CellValue): void => {
    if (!(value instanceof ErrorValue)) return;
    const cell = formatFullAddress(book.sheets[sheet]?.name ?? "", row, column);
    found.push({ cell, error: value, kind: "error", alsoFilled: 0, alike: [] });
  };
  for (const [sheet, { cells }] of book.sheets.entries()) {
    for (const { row, column, value, formula } of cells.values()) {
      if (!(value instanceof ErrorValue) || formula || evaluation.outcome(sheet, row, column)) continue;
      if (set.some((patch) => patch.sheet === sheet && patch.row === row && patch.column === column)) continue;
      add(sheet, row, column, value);
    }
  }
  for (const { sheet, row, column, value } of set) add(sheet, row, column, value);
  return found;
}
