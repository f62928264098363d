import { placeOfKey, type Area, type Book, type CellValue } from "../model";
import { AddInCalls, type AddInRegistry } from "./add-in";
import { evaluationOf, type EvaluatedCell, type Evaluation, type Outcome } from "./evaluation";
import { ordinaryFunctions } from "./functions/index";
import { Grid, type Overrides } from "./grid";
import { Interpreter, type Frame } from "./interpreter";
import { Names } from "./names";
import { Parser } from "./parse";
import { overridesOf, type CellChange } from "./override";
import { resolveArea, SheetNames } from "./references";
import { refuse } from "./refusal";
import { Scheduler } from "./schedule";
import type { Slot } from "./slot";
import { place, shown } from "./spill";
import { resolveTable } from "./table-reference";
import { errors, Lambda, Matrix, Omitted, Reference, type Scalar, type SheetArea, type Value } from "./value";

export interface EvaluateOptions {
  /** The add-in's functions; without it their cells are "not evaluated". */
  readonly addIn?: AddInRegistry;
  /** Blank cells reach add-in functions as 0, as some hosts send them; otherwise as null. */
  readonly blankAsZero?: boolean;
  /** Values put into cells before evaluation, for a what-if. */
  readonly set?: readonly CellChange[];
  /** The clock for NOW and TODAY; without it they are "not evaluated". */
  readonly now?: Date;
}

/** A spill that grows changes what is blank elsewhere; after this many rounds it is taken to have no end. */
const mostRounds = 12;

/**
 * Evaluates every formula of a book in dependency order, without Excel.
 *
 * A cell gets a value only where it is certain to be Excel's; everything else, and what depends on it, is listed as not
 * evaluated with the reason. Throws for a change that names no sheet of the book.
 */
export function evaluateBook(book: Book, options: EvaluateOptions = {}): Evaluation {
  const parser = new Parser();
  const overrides = overridesOf(book, options.set ?? []);
  const spills = new Map<string, Area>();
  for (let round = 1; ; round += 1) {
    const run = new Run(book, parser, overrides, spills, options);
    run.scheduler.run();
    const grown = run.unforeseenSpills();
    if (grown.length === 0 || round === mostRounds) {
      for (const slot of grown) run.fail(slot, "its result grows without end");
      return run.evaluation();
    }
    for (const slot of grown) spills.set(run.grid.address(slot), slot.filled as Area);
  }
}

/** One pass over the book. */
class Run {
  readonly grid: Grid;
  readonly scheduler: Scheduler;
  private readonly interpreter: Interpreter;
  private readonly sheetNames: SheetNames;
  private readonly names: Names;

  constructor(
    book: Book,
    parser: Parser,
    overrides: Overrides,
    private readonly spills: ReadonlyMap<string, Area>,
    private readonly options: EvaluateOptions,
  ) {
    this.grid = new Grid(book, parser, overrides, spills);
    this.sheetNames = new SheetNames(book);
    this.names = new Names(book, parser, this.sheetNames);
    this.interpreter = new Interpreter({
      grid: this.grid,
      sheetNames: this.sheetNames,
      names: this.names,
      functions: ordinaryFunctions,
      addIn: new AddInCalls(options.addIn ?? new Map(), options.blankAsZero ?? false),
    });
    this.scheduler = new Scheduler(
      this.grid,
      (slot) => this.evaluate(slot),
      (slot) => this.suggestions(slot),
    );
  }

  private evaluate(slot: Slot): void {
    const { formula, parsed } = slot;
    if (!formula || !parsed) return;
    if (formula.dataTable) refuse("a what-if data table");
    const isArray = formula.array !== undefined || formula.dynamic === true;
    const frame: Frame = {
      sheet: slot.sheet,
      row: slot.row,
      column: slot.column,
      scope: undefined,
      now: this.options.now,
    };
    const { value, scale } = this.interpreter.formula(parsed, frame, isArray ? "array" : "cell");
    slot.scale = scale;
    const result = this.final(value, frame, isArray);
    if (isArray) place(slot, result, this.grid);
    else slot.value = shown(result instanceof Matrix ? result.at(0, 0) : result);
    if (parsed.addInCalls > 0) slot.depth += 1;
  }

  private final(value: Value, frame: Frame, isArray: boolean): Scalar | Matrix {
    if (value instanceof Lambda) return errors.calculation;
    if (value instanceof Omitted) return null;
    return value instanceof Reference || value instanceof Matrix
      ? this.interpreter.scalars(value, frame, isArray ? "array" : "cell")
      : value;
  }

  /** Formula cells that a formula names in plain sight, as far as they are few; ranges of many are asked for in one go anyway. */
  private *suggestions(slot: Slot): Iterable<Slot> {
    for (const node of slot.parsed?.precedents ?? []) {
      if (node.type === "name") continue;
      const reference =
        node.type === "area"
          ? resolveArea(node, slot, this.sheetNames)
          : resolveTableQuietly(() => resolveTable(node, slot, this.grid.book));
      if (!(reference instanceof Reference)) continue;
      for (const area of reference.areas) yield* this.slotsIn(area);
    }
  }

  private *slotsIn(area: SheetArea): Iterable<Slot> {
    if ((area.bottom - area.top + 1) * (area.right - area.left + 1) > 64) return;
    for (let row = area.top; row <= area.bottom; row += 1) {
      for (let column = area.left; column <= area.right; column += 1) {
        const slot = this.grid.slotAt(area.sheet, row, column);
        if (slot) yield slot.owner ?? slot;
      }
    }
  }

  /** Dynamic arrays that fill cells which other formulas may have read as blank in this pass. */
  unforeseenSpills(): Slot[] {
    return this.grid.formulas.filter(({ filled, formula, sheet, row, column }) => {
      if (!filled || !formula?.dynamic) return false;
      const known = [formula.array, this.spills.get(this.grid.address({ sheet, row, column }))];
      return (
        !known.some((area) => area && filled.bottom <= area.bottom && filled.right <= area.right) &&
        filled.bottom + filled.right > row + column
      );
    });
  }

  fail(slot: Slot, reason: string): void {
    try {
      refuse(reason);
    } catch (problem) {
      slot.failure = problem as NonNullable<Slot["failure"]>;
    }
  }

  evaluation(): Evaluation {
    const { grid } = this;
    const cells: EvaluatedCell[] = [];
    for (const [sheet, { slots }] of grid.sheets.entries()) {
      for (const [key, slot] of slots) {
        const { row, column } = placeOfKey(key);
        const outcome = outcomeOf(grid, sheet, row, column);
        // A cell of an array's stored range that the array no longer reaches is blank now.
        const role = slot.formula ? "formula" : "filled";
        const plainAddIn = slot.parsed?.plainAddIn === true;
        cells.push({
          sheet,
          row,
          column,
          address: grid.address(slot),
          role,
          outcome,
          scale: slot.scale,
          onClock: (slot.owner ?? slot).onClock,
          plainAddIn,
        });
      }
    }
    const withCalls = grid.formulas.filter((slot) => (slot.parsed?.addInCalls ?? 0) > 0);
    return evaluationOf({
      cells,
      spills: grid.formulas.flatMap((slot) =>
        slot.formula?.dynamic && slot.filled && !slot.failure
          ? [{ address: grid.address(slot), area: slot.filled }]
          : [],
      ),
      cycles: this.scheduler.cycles.map((circle) => circle.map((slot) => grid.address(slot))),
      addIn: {
        calls: grid.formulas.reduce((sum, { calls }) => sum + calls, 0),
        cells: withCalls.length,
        depth: grid.formulas.reduce((deepest, { depth }) => Math.max(deepest, depth), 0),
      },
    });
  }
}

function outcomeOf(grid: Grid, sheet: number, row: number, column: number): Outcome {
  const final = grid.finalValue(sheet, row, column);
  if ("value" in final) return { evaluated: true, value: final.value };
  const { reason, origin } = final.failure;
  const own = grid.address({ sheet, row, column });
  return origin === undefined || origin === own ? { evaluated: false, reason } : { evaluated: false, reason, origin };
}

function resolveTableQuietly(resolve: () => Reference | Scalar): Reference | Scalar {
  try {
    return resolve();
  } catch {
    return null;
  }
}
