import { type Area, type Book, buildCellKey, type CellValue, ErrorValue, placeOfKey } from "../model";
import type { Grid } from "./grid/grid";
import type { CutTable, Slot } from "./grid/slot";
import { NotEvaluated } from "./values/refusal";
import type { WorkDone } from "./work-limits";

/** The outcome for one cell: a value, or the reason why there is none. */
export type Outcome =
  | { readonly evaluated: true; readonly value: CellValue }
  | {
      readonly evaluated: false;
      readonly reason: string;
      /** The reason without what it quotes: one for all refusals of a kind. */
      readonly cause: string;
      /** The address of the cell where the problem originated, if a different one. */
      readonly origin?: string;
    };

/** A computed cell: the formula's own cell or one filled by its array. */
export interface EvaluatedCell {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  /** With the sheet: Results!B4. */
  readonly address: string;
  readonly role: "formula" | "filled";
  readonly outcome: Outcome;
  /** The larger operand of a final addition or subtraction, the largest summand of a sum of cells; 0 for other formulas. */
  readonly scale: number;
  /** Above 0 where a number was found by iteration: how far from the stored one it may be, relative where that is above 1. */
  readonly tolerance: number;
  /** The address of the formula that computes it: its own, or that of the array filling it. */
  readonly source: string;
  /** That formula read an error value from another cell. */
  readonly readsError: boolean;
  /** Some cell the formula depends on, at any remove, holds an error value. */
  readonly afterError: boolean;
  /** Another formula read its error value. */
  readonly isErrorRead: boolean;
  /** The names of other workbooks of which the formula read values that this file keeps. */
  readonly externals: readonly string[];
  /** Depends on the clock: the stored value is from another moment. */
  readonly onClock: boolean;
  /** The add-in's table of which the formula's cells show a part only: one cell, or an array over too few. */
  readonly cutTable: CutTable | undefined;
  /** Holds an add-in call typed as text without the add-in loaded. */
  readonly plainAddIn: boolean;
}

/** The result of evaluating a book. */
export interface Evaluation {
  readonly cells: readonly EvaluatedCell[];
  readonly spills: readonly { readonly address: string; readonly area: Area }[];
  /** Addresses of each circular reference, in order of dependence. */
  readonly cycles: readonly (readonly string[])[];
  /** The work used by the calculation, and its limits. */
  readonly work: WorkDone;
  /** Add-in calls made, the cells making them, and the longest chain of such cells from inputs to a result. */
  readonly addIn: { readonly calls: number; readonly cells: number; readonly depth: number };
  /** The outcome of a computed cell, undefined for any other cell. */
  outcome(sheet: number, row: number, column: number): Outcome | undefined;
}

/** Collects what a report needs into an Evaluation. */
function assembleEvaluation(parts: Omit<Evaluation, "outcome">): Evaluation {
  const bySheet = new Map<number, Map<number, Outcome>>();
  for (const { sheet, row, column, outcome } of parts.cells) {
    let outcomes = bySheet.get(sheet);
    if (!outcomes) bySheet.set(sheet, (outcomes = new Map<number, Outcome>()));
    outcomes.set(buildCellKey(row, column), outcome);
  }
  return { ...parts, outcome: (sheet, row, column) => bySheet.get(sheet)?.get(buildCellKey(row, column)) };
}

/** The outcome of every cell of a grid that was computed. */
export function reportOf(grid: Grid, cycles: readonly (readonly Slot[])[], work: WorkDone): Evaluation {
  const { formulas } = grid;
  return assembleEvaluation({
    cells: collectCells(grid),
    work,
    spills: formulas.flatMap((slot) =>
      slot.formula?.dynamic && slot.filled && !slot.failure
        ? [{ address: grid.formatAddress(slot), area: slot.filled }]
        : [],
    ),
    cycles: cycles.map((circle) => circle.map((slot) => grid.formatAddress(slot))),
    addIn: {
      calls: formulas.reduce((sum, { calls }) => sum + calls, 0),
      cells: formulas.filter((slot) => (slot.parsed?.addInCalls ?? 0) > 0).length,
      depth: formulas.reduce((deepest, { depth }) => Math.max(deepest, depth), 0),
    },
  });
}

function collectCells(grid: Grid): EvaluatedCell[] {
  const cells: EvaluatedCell[] = [];
  for (const [sheet, { slots }] of grid.sheets.entries()) {
    for (const [key, slot] of slots) {
      const source = slot.owner ?? slot;
      // Nobody wanted it.
      if (source.progress !== "done") continue;
      const { row, column } = placeOfKey(key);
      const address = grid.formatAddress(slot);
      cells.push({
        sheet,
        row,
        column,
        address,
        // A cell of an array's stored range that the array no longer reaches is among the filled ones, and blank.
        role: slot.formula ? "formula" : "filled",
        outcome: findOutcome(grid, slot, address),
        scale: slot.scale,
        tolerance: source.tolerance,
        source: slot.owner ? grid.formatAddress(slot.owner) : address,
        readsError: source.readsError,
        afterError: source.afterError,
        isErrorRead: slot.isErrorRead,
        externals: [...source.externals].map((number) => grid.book.externals?.[number - 1]?.file ?? ""),
        onClock: source.onClock,
        cutTable: slot.cutTable,
        plainAddIn: slot.parsed?.plainAddIn === true,
      });
    }
  }
  return cells;
}

function findOutcome(grid: Grid, { sheet, row, column }: Slot, own: string): Outcome {
  try {
    return { evaluated: true, value: grid.readValue(sheet, row, column) };
  } catch (problem) {
    if (!(problem instanceof NotEvaluated)) throw problem;
    const { reason, cause, origin } = problem;
    const failed = { evaluated: false, reason, cause } as const;
    return origin === undefined || origin === own ? failed : { ...failed, origin };
  }
}

/** A cell whose computed value is not the stored one. */
export interface Difference {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  readonly address: string;
  readonly stored: CellValue;
  readonly computed: CellValue;
  readonly reason: string;
  /** Excel keeps #NAME? there: the call was typed without the add-in loaded. */
  readonly isUnbound: boolean;
}

/**
 * Relative tolerance between computed and stored numbers. Excel and this evaluator round differently in sums, fits and distributions
 * (some of Excel's distributions are good to eleven digits or so), which after cancellation can cost three or four digits more;
 * a wrong rule, unit, or cell changes far more than the ninth digit.
 */
const relativeTolerance = 1e-9;

/** A final difference or a sum may keep the rounding errors of its operands: a few units in their fifteenth digit. */
const cancellationTolerance = 1e-13;

/** Every evaluated cell whose value differs from the stored one; text, booleans and error codes must match exactly. */
export function compareWithStored(book: Book, evaluation: Evaluation): Difference[] {
  const differences: Difference[] = [];
  for (const cell of evaluation.cells) {
    // A value that depends on the clock was different when the file was saved; there is nothing to compare.
    if (!cell.outcome.evaluated || cell.onClock) continue;
    const stored = readStoredValue(book, cell);
    const computed = cell.outcome.value;
    if (agree(stored, computed, cell)) continue;
    const { sheet, row, column, address } = cell;
    differences.push({
      sheet,
      row,
      column,
      address,
      stored,
      computed,
      reason: explainDifference(cell, stored, computed),
      isUnbound: isUnbound(cell, stored),
    });
  }
  return differences;
}

function readStoredValue(book: Book, { sheet, row, column }: EvaluatedCell): CellValue {
  return book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.value ?? null;
}

/** True if two values agree within the tolerance; `scale` is the larger operand of a final + or −, or the largest summand. */
function agree(
  stored: CellValue,
  computed: CellValue,
  { scale, tolerance }: Pick<EvaluatedCell, "scale" | "tolerance">,
): boolean {
  if (typeof stored === "number" && typeof computed === "number") {
    const size = Math.abs(stored);
    const allowed = Math.max(relativeTolerance * size, cancellationTolerance * scale, tolerance * Math.max(1, size));
    return Math.abs(stored - computed) <= allowed;
  }
  if (stored instanceof ErrorValue || computed instanceof ErrorValue) {
    return stored instanceof ErrorValue && computed instanceof ErrorValue && stored.code === computed.code;
  }
  if (typeof stored === "string" && typeof computed === "string" && stored.length > shortestCard)
    return stored === computed || agreeButForLastDigits(stored, computed);
  // A formula that gave "" may be stored with no value at all.
  return stored === computed || ((stored ?? "") === "" && (computed ?? "") === "");
}

/** A result card writes out a whole test; shorter texts show rounded figures, of which every digit counts. */
const shortestCard = 100;

const figure = /-?\d+(?:\.\d+)?(?:e[-+]?\d+)?/gi;

/**
 * Whether two texts are the same but for the last digits of the figures in them: another JavaScript engine, such as that of Excel on a Mac, rounds
 * logarithms and powers otherwise.
 */
function agreeButForLastDigits(stored: string, computed: string): boolean {
  if (stored.replace(figure, "#") !== computed.replace(figure, "#")) return false;
  const [figures, others] = [stored, computed].map((text) => (text.match(figure) ?? []).map(Number));
  return (figures ?? []).every(
    (value, index) => Math.abs(value - (others?.[index] ?? NaN)) <= relativeTolerance * Math.abs(value),
  );
}

function isUnbound(cell: EvaluatedCell, stored: CellValue): boolean {
  return cell.plainAddIn === true && stored instanceof ErrorValue && stored.code === "#NAME?";
}

function explainDifference(cell: EvaluatedCell, stored: CellValue, computed: CellValue): string {
  if (isUnbound(cell, stored)) {
    return "typed without the add-in loaded: Excel keeps #NAME? until the formula is re-entered";
  }
  if (computed instanceof ErrorValue && computed.reason !== "") return computed.reason;
  if (stored === null) return "no value is stored for this cell";
  return "the stored value is not what the formula gives now";
}
