import { columnsOf, isSingleCell, rowsOf } from "../book/area";
import { recallFormulas } from "../book/formulas";
import { sentence } from "../file/problem";
import { type Area, type Book, buildCellKey, ErrorValue, type Formula } from "../model";
import type { AddInCalls } from "./calls/add-in";
import { evaluateFinalValue, isPlainSum } from "./final-value";
import { ordinaryFunctions } from "./functions/index";
import { roundDecimal } from "./functions/rounding";
import { Grid, type Overrides } from "./grid/grid";
import type { CutTable, Slot } from "./grid/slot";
import { place, showBlankAsZero } from "./grid/spill";
import { Interpreter } from "./interpreter";
import type { Frame } from "./references/frame";
import { Scheduler } from "./schedule";
import { Suggestions } from "./suggestions";
import { type NotEvaluated, refuse } from "./values/refusal";
import { errors, Lambda, Matrix, Omitted, Reference, type Scalar, type Value } from "./values/value";
import { keepValues } from "./work-limits";

/** The starting point of one pass over a book. */
export interface RunInput {
  readonly book: Book;
  readonly addIn: AddInCalls;
  readonly overrides: Overrides;
  /** The extents of dynamic arrays in earlier passes, by the address of their formula. */
  readonly spills: ReadonlyMap<string, Area>;
  /** Dynamic arrays that grew in every pass. */
  readonly endless: ReadonlySet<string>;
  /** What cells that close a circle begin with, by their address; circles met in this pass are added. */
  readonly seeds: Map<string, Scalar>;
  /** The book's own, until its circles prove not to settle. */
  iteration: Book["iteration"];
  /** Formulas that exceeded the limits in an earlier pass. */
  readonly tooMuch: ReadonlyMap<string, NotEvaluated>;
  readonly now: Date | undefined;
}

/** One pass over the book: every formula evaluated once the cells that it needs are. */
export class Run {
  readonly grid: Grid;
  readonly scheduler: Scheduler;
  private readonly interpreter: Interpreter;

  constructor(private readonly input: RunInput) {
    const { book, addIn } = input;
    this.grid = new Grid(book, input.overrides, input.spills, input.iteration ? input.seeds : undefined);
    const { sheetNames, names } = recallFormulas(book);
    this.interpreter = new Interpreter({ grid: this.grid, sheetNames, names, functions: ordinaryFunctions, addIn });
    const suggestions = new Suggestions(this.grid, sheetNames);
    this.scheduler = new Scheduler(
      this.grid,
      (slot) => this.evaluate(slot),
      (slot, suggest) => suggestions.suggestFor(slot, suggest),
      (slot) => this.seedCircle(slot),
    );
  }

  /** A circle begins with what the file holds, as Excel does. Arrays that read themselves are refused. */
  private seedCircle(slot: Slot): boolean {
    const { book, iteration, seeds } = this.input;
    if (!iteration || slot.seed || slot.formula?.array || slot.formula?.dynamic) return false;
    const value = book.sheets[slot.sheet]?.cells.get(buildCellKey(slot.row, slot.column))?.value ?? 0;
    slot.seed = { value, change: iteration.change };
    seeds.set(this.grid.formatAddress(slot), value);
    return true;
  }

  /**
   * After a pass: what the seeded cells gave. Those that gave what they began with, within the workbook's maximum change, keep that;
   * the others begin the next pass with what they gave. True where there is no other.
   */
  settleCircles(): boolean {
    const { seeds } = this.input;
    let settled = true;
    for (const slot of this.grid.formulas) {
      if (!slot.seed || slot.failure) continue;
      const { value: before, change } = slot.seed;
      const isSame =
        typeof before === "number" && typeof slot.value === "number"
          ? Math.abs(before - slot.value) <= change
          : before === slot.value || (before instanceof ErrorValue && slot.value instanceof ErrorValue);
      if (isSame) continue;
      settled = false;
      seeds.set(this.grid.formatAddress(slot), slot.value);
    }
    return settled;
  }

  private evaluate(slot: Slot): void {
    const { formula, parsed, sheet, row, column } = slot;
    if (!formula || !parsed) return;
    if (formula.dataTable) refuse("a what-if data table");
    const before = this.input.tooMuch.size > 0 ? this.input.tooMuch.get(this.grid.formatAddress(slot)) : undefined;
    if (before) throw before;
    if (this.input.endless.size > 0 && this.input.endless.has(this.grid.formatAddress(slot))) {
      refuse("its result grows with every calculation");
    }
    const isArray = formula.array !== undefined || formula.dynamic === true;
    const kind = formula.dynamic ? "dynamic" : isArray ? "braces" : "ordinary";
    const frame: Frame = { sheet, row, column, kind, scope: undefined, now: this.input.now };
    const { value, scale } = evaluateFinalValue(this.interpreter, parsed, frame, isArray ? "array" : "cell");
    slot.scale = isPlainSum(parsed.root) ? slot.largest : scale;
    const result = this.finishValue(value, frame, isArray);
    slot.cutTable = parsed.addInCalls > 0 && result instanceof Matrix ? findCut(formula, result) : undefined;
    if (isArray) place(slot, this.keepResult(slot, result), this.grid);
    else {
      slot.value = showBlankAsZero(
        this.keepResult(slot, result instanceof Matrix ? result.at(0, 0) : result) as Scalar,
      );
      if (typeof slot.value === "string") keepValues([slot.value]);
    }
    // Only a cell consisting of the call itself holds the card; a formula around it gives a plain value.
    if (parsed.root.type !== "addIn") slot.card = undefined;
    if (parsed.addInCalls > 0) slot.depth += 1;
  }

  /** What the cell keeps of a result: all of it, unless the workbook calculates with precision as displayed. */
  private keepResult(slot: Slot, result: Scalar | Matrix): Scalar | Matrix {
    const { book } = this.input;
    if (book.precisionAsDisplayed !== true) return result;
    if (result instanceof Matrix && result.values.length > 1)
      refuse("an array over several cells in a workbook that calculates with the precision as displayed");
    const format = book.sheets[slot.sheet]?.cells.get(buildCellKey(slot.row, slot.column))?.format ?? "General";
    return roundAsDisplayed(result instanceof Matrix ? result.at(0, 0) : result, format);
  }

  private finishValue(value: Value, frame: Frame, isArray: boolean): Scalar | Matrix {
    if (value instanceof Lambda) return errors.calculation;
    if (value instanceof Omitted) return null;
    if (!(value instanceof Reference)) return value;
    return this.interpreter.readScalars(value, frame, isArray ? "array" : "cell");
  }

  /** Why formulas were not evaluated, excluding those that only depend on others. */
  listFailures(): { readonly address: string; readonly failure: NotEvaluated }[] {
    return this.grid.formulas.flatMap((slot) =>
      slot.failure && slot.failure.origin === undefined
        ? [{ address: this.grid.formatAddress(slot), failure: slot.failure }]
        : [],
    );
  }

  /** Dynamic arrays that fill cells which other formulas may have read as blank in this pass. */
  findUnforeseenSpills(): Slot[] {
    return this.grid.formulas.filter((slot) => {
      const { filled, formula } = slot;
      if (!filled || !formula?.dynamic || slot.failure) return false;
      const known = [formula.array, this.input.spills.get(this.grid.formatAddress(slot))];
      const isOneCell = isSingleCell(filled);
      return !isOneCell && !known.some((area) => area && filled.bottom <= area.bottom && filled.right <= area.right);
    });
  }
}

/** What of a result the formula's cells do not show; a dynamic array shows all of it. */
function findCut({ dynamic, array }: Formula, { rows, columns }: Matrix): CutTable | undefined {
  if (dynamic) return undefined;
  const shown = array ? ([rowsOf(array), columnsOf(array)] as const) : ([1, 1] as const);
  return rows > shown[0] || columns > shown[1] ? { whole: [rows, columns], shown } : undefined;
}

/** A format that shows digits, at most with a per cent sign, thousands separators, a sign and text in quotes. */
const plain = /^[#0,]*(?:\.([#0]+))?(%?)$/;

/**
 * What a cell keeps of a number where the workbook calculates with the precision as displayed: the digits that its format shows,
 * and all of them under General. Formats of which that is not certain are refused.
 */
export function roundAsDisplayed(value: Scalar, format: string): Scalar {
  if (typeof value !== "number" || /^(general|@)?$/i.test(format)) return value;
  const bare = format.split(";").map((part) => part.replace(/"[^"]*"|[\\_*].|\[[a-z]+\]|[-+() $€£]/gi, ""));
  const matches = bare.map((part) => plain.exec(part));
  const places = matches.map((match) => (match ? (match[1]?.length ?? 0) + (match[2] ? 2 : 0) : undefined));
  const [first] = places;
  // Commas behind the digits divide by a thousand; parts that show differently many digits leave it open which of them counts.
  if (first === undefined || bare.some((part) => /,(?:$|[.%])/.test(part)) || places.some((other) => other !== first))
    return refuse(
      sentence`a cell with the format ${format} in a workbook that calculates with the precision as displayed`,
    );
  return roundDecimal(value, first, "nearest");
}
