import { cellKey, type Area, type Book } from "../model";
import type { AddInCalls } from "./calls/add-in";
import { asDisplayed } from "./displayed-precision";
import { finalValue } from "./final-value";
import type { Frame } from "./references/frame";
import { ordinaryFunctions } from "./functions/index";
import { Grid, type Overrides } from "./grid/grid";
import { Interpreter } from "./interpreter";
import { Names } from "./references/names";
import { SheetNames } from "./references/references";
import { refuse, type NotEvaluated } from "./values/refusal";
import { Scheduler } from "./schedule";
import type { Slot } from "./grid/slot";
import { place, shown } from "./grid/spill";
import { Suggestions } from "./suggestions";
import { errors, Lambda, Matrix, Omitted, Reference, type Scalar, type Value } from "./values/value";
import { keepValues } from "./values/work";

/** What one pass over a book starts from. */
export interface RunInput {
  readonly book: Book;
  readonly addIn: AddInCalls;
  readonly overrides: Overrides;
  /** What dynamic arrays were seen to fill in earlier passes, by the address of their formula. */
  readonly spills: ReadonlyMap<string, Area>;
  /** Dynamic arrays that grew in every pass. */
  readonly endless: ReadonlySet<string>;
  /** Formulas that took too much in an earlier pass. */
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
    this.grid = new Grid(book, input.overrides, input.spills);
    const sheetNames = new SheetNames(book);
    const names = new Names(book, sheetNames);
    this.interpreter = new Interpreter({ grid: this.grid, sheetNames, names, functions: ordinaryFunctions, addIn });
    const suggestions = new Suggestions(this.grid, sheetNames);
    this.scheduler = new Scheduler(
      this.grid,
      (slot) => this.evaluate(slot),
      (slot, suggest) => suggestions.of(slot, suggest),
    );
  }

  private evaluate(slot: Slot): void {
    const { formula, parsed, sheet, row, column } = slot;
    if (!formula || !parsed) return;
    if (formula.dataTable) refuse("a what-if data table");
    const before = this.input.tooMuch.size > 0 ? this.input.tooMuch.get(this.grid.address(slot)) : undefined;
    if (before) throw before;
    if (this.input.endless.size > 0 && this.input.endless.has(this.grid.address(slot))) {
      refuse("its result grows with every calculation");
    }
    const isArray = formula.array !== undefined || formula.dynamic === true;
    const kind = formula.dynamic ? "dynamic" : isArray ? "braces" : "ordinary";
    const frame: Frame = { sheet, row, column, kind, scope: undefined, now: this.input.now };
    const { value, scale } = finalValue(this.interpreter, parsed, frame, isArray ? "array" : "cell");
    slot.scale = scale;
    const result = this.final(value, frame, isArray);
    slot.cutTable =
      !isArray && parsed.addInCalls > 0 && result instanceof Matrix && result.values.length > 1
        ? [result.rows, result.columns]
        : undefined;
    if (isArray) place(slot, this.kept(slot, result), this.grid);
    else {
      slot.value = shown(this.kept(slot, result instanceof Matrix ? result.at(0, 0) : result) as Scalar);
      if (typeof slot.value === "string") keepValues([slot.value]);
    }
    // Only a cell that is the call itself holds the card; a formula around it holds a plain value.
    if (parsed.root.type !== "addIn") slot.card = undefined;
    if (parsed.addInCalls > 0) slot.depth += 1;
  }

  /** What the cell keeps of a result: all of it, unless the workbook calculates with the precision as displayed. */
  private kept(slot: Slot, result: Scalar | Matrix): Scalar | Matrix {
    const { book } = this.input;
    if (book.precisionAsDisplayed !== true) return result;
    if (result instanceof Matrix && result.values.length > 1)
      refuse("an array over several cells in a workbook that calculates with the precision as displayed");
    const format = book.sheets[slot.sheet]?.cells.get(cellKey(slot.row, slot.column))?.format ?? "General";
    return asDisplayed(result instanceof Matrix ? result.at(0, 0) : result, format);
  }

  private final(value: Value, frame: Frame, isArray: boolean): Scalar | Matrix {
    if (value instanceof Lambda) return errors.calculation;
    if (value instanceof Omitted) return null;
    if (!(value instanceof Reference)) return value;
    return this.interpreter.scalars(value, frame, isArray ? "array" : "cell");
  }

  /** Why formulas were not evaluated, those that only depend on others left out. */
  failures(): { readonly address: string; readonly failure: NotEvaluated }[] {
    return this.grid.formulas.flatMap((slot) =>
      slot.failure && slot.failure.origin === undefined
        ? [{ address: this.grid.address(slot), failure: slot.failure }]
        : [],
    );
  }

  /** Dynamic arrays that fill cells which other formulas may have read as blank in this pass. */
  unforeseenSpills(): Slot[] {
    return this.grid.formulas.filter((slot) => {
      const { filled, formula } = slot;
      if (!filled || !formula?.dynamic || slot.failure) return false;
      const known = [formula.array, this.input.spills.get(this.grid.address(slot))];
      const isOneCell = filled.bottom === filled.top && filled.right === filled.left;
      return !isOneCell && !known.some((area) => area && filled.bottom <= area.bottom && filled.right <= area.right);
    });
  }
}
