import { formulasOf } from "../book/formulas";
import { shorten } from "../file/problem";
import { AddInCalls, type AddInRegistry } from "../formula/calls/add-in";
import type { Evaluation } from "../formula/evaluation";
import { ordinaryFunctions } from "../formula/functions/index";
import { Grid } from "../formula/grid/grid";
import { largestFill } from "../formula/grid/sheet-grid";
import type { Slot } from "../formula/grid/slot";
import { Interpreter } from "../formula/interpreter";
import type { Place } from "../formula/references/references";
import { NotEvaluated } from "../formula/values/refusal";
import { columnsOf, Matrix, rowsOf, type Scalar, type SheetArea } from "../formula/values/value";
import { limitsAfter, Work } from "../formula/values/work";
import { type Area, type Book, cellKey, placeOfKey } from "../model";
import { addressOf } from "./areas";
import type { Explanation } from "./explain";
import type { FunctionNote } from "./function-notes";
import { Labels } from "./labels";
import { inWords } from "./tree";
import type { Tools } from "./walk";

/** Everything that a trace asks about a workbook, put together once. */
export class Workbench {
  readonly grid: Grid;
  readonly labels: Labels;
  readonly tools: Tools;
  private readonly explanations = new Map<Slot, Explanation>();
  private readonly names: ReadonlyMap<string, string>;
  private readonly circles: ReadonlyMap<string, readonly string[]>;

  constructor(
    readonly book: Book,
    private readonly evaluation: Evaluation,
    addIn: AddInRegistry,
    functions: ReadonlyMap<string, FunctionNote>,
    readonly now: Date | undefined,
  ) {
    const { sheetNames, names } = formulasOf(book);
    this.grid = settledGrid(book, evaluation);
    const workshop = {
      grid: this.grid,
      sheetNames,
      names,
      functions: ordinaryFunctions,
      addIn: new AddInCalls(addIn, false),
    };
    this.labels = new Labels(book, (sheet, row, column) => {
      const { kind, value } = this.state({ sheet, row, column });
      return { value, typed: kind === "input" || kind === "filled" };
    });
    this.tools = {
      interpreter: new Interpreter(workshop),
      work: new Work(limitsAfter(evaluation.work)),
      names,
      functions,
      nameArea: (area) => this.nameArea(area),
      nameValue: inWords,
    };
    this.names = new Map(book.names.map(({ name, text }) => [text.replaceAll("$", ""), name]));
    this.circles = new Map(evaluation.cycles.flatMap((circle) => circle.map((address) => [address, circle] as const)));
  }

  state({ sheet, row, column }: Place): CellState {
    return stateOf(this.grid, this.evaluation, sheet, row, column);
  }

  slot({ sheet, row, column }: Place): Slot {
    return this.grid.slotAt(sheet, row, column) as Slot;
  }

  /** A formula is explained once, however many ways lead to it. */
  explanation(slot: Slot, explained: () => Explanation): Explanation {
    let known = this.explanations.get(slot);
    if (!known) this.explanations.set(slot, (known = explained()));
    return known;
  }

  /** The cells of an area that hold or give something, row by row. */
  cellsIn(area: SheetArea): Place[] {
    const keys = this.grid.sheets[area.sheet]?.keysIn(area) ?? [];
    return keys
      .map((key) => ({ sheet: area.sheet, ...placeOfKey(key) }))
      .filter((cell) => this.state(cell).kind !== "blank");
  }

  /** The defined name of a cell or range, "" where it has none; names of Excel's own, such as print areas, do not count. */
  nameOf(address: string): string {
    const name = this.names.get(address) ?? "";
    return name.startsWith("_xl") ? "" : name;
  }

  cycleOf(addresses: readonly string[]): readonly string[] | undefined {
    return addresses.map((address) => this.circles.get(address)).find((circle) => circle !== undefined);
  }

  private nameArea(area: SheetArea): string {
    const { text } = this.labels.ofArea(area);
    const count = (area.bottom - area.top + 1) * (area.right - area.left + 1);
    const cells = count === 1 ? "" : ` (${String(count)} cells)`;
    if (text !== "") return `“${shorten(text)}”${cells}`;
    const address = addressOf(area, this.book.sheets[area.sheet]?.name ?? "");
    return this.nameOf(address) || address;
  }
}

/** The book's cells with every result in its place, so that any part of a formula can be evaluated by itself, long after the whole. */
export function settledGrid(book: Book, evaluation: Evaluation): Grid {
  const spills = new Map(evaluation.spills.map(({ address, area }) => [address, area]));
  // What found no room in the calculation finds none here.
  const grid = new Work(evaluation.work.limits).during(() => new Grid(book, new Map(), spills));
  for (const slot of grid.formulas) {
    slot.progress = "done";
    const outcome = evaluation.outcome(slot.sheet, slot.row, slot.column);
    if (outcome?.evaluated) {
      slot.value = outcome.value;
      const area = slot.formula?.dynamic ? spills.get(grid.address(slot)) : slot.formula?.array;
      if (area && rowsOf(area) * columnsOf(area) <= largestFill) fill(slot, area, evaluation);
    } else slot.failure = new NotEvaluated(outcome?.reason ?? "nothing is known of it", outcome?.origin);
  }
  return grid;
}

function fill(slot: Slot, area: Area, evaluation: Evaluation): void {
  const values: Scalar[] = [];
  for (let row = area.top; row <= area.bottom; row += 1) {
    for (let column = area.left; column <= area.right; column += 1) {
      const outcome = evaluation.outcome(slot.sheet, row, column);
      values.push(outcome?.evaluated ? outcome.value : null);
    }
  }
  slot.filled = area;
  slot.results = new Matrix(rowsOf(area), columnsOf(area), values);
}

/** What a cell holds or gives, as the trace sees it. */
interface CellState {
  readonly kind: "formula" | "filled" | "input" | "blank";
  /** The formula cell that fills it, for a filled cell. */
  readonly owner?: Slot;
  readonly value: Scalar;
  readonly notEvaluated?: string;
}

/** What stands in a cell. */
function stateOf(grid: Grid, evaluation: Evaluation, sheet: number, row: number, column: number): CellState {
  const slot = grid.slotAt(sheet, row, column);
  if (!slot || slot.isEmptied) {
    const value = grid.sheets[sheet]?.constants.get(cellKey(row, column)) ?? null;
    return { kind: value === null ? "blank" : "input", value };
  }
  const outcome = evaluation.outcome(sheet, row, column);
  const kind = slot.owner ? "filled" : "formula";
  const owner = slot.owner ? { owner: slot.owner } : {};
  if (outcome?.evaluated) return { kind, ...owner, value: outcome.value };
  return { kind, ...owner, value: null, notEvaluated: outcome?.reason ?? "nothing is known of it" };
}
