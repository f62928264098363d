import type { Book } from "../model";
import { AddInCalls, type AddInRegistry } from "../formula/calls/add-in";
import type { Evaluation } from "../formula/evaluation";
import { ordinaryFunctions } from "../formula/functions/index";
import type { Grid } from "../formula/grid/grid";
import { Interpreter } from "../formula/interpreter";
import type { Place } from "../formula/references/references";
import type { Slot } from "../formula/grid/slot";
import { placeOfKey } from "../model";
import { BookFormulas } from "../reads/book-formulas";
import { limitsAfter, Work } from "../formula/values/work";
import type { SheetArea } from "../formula/values/value";
import { addressOf } from "./areas";
import type { Explanation } from "./explain";
import type { FunctionNote } from "./function-notes";
import { Labels } from "./labels";
import { settledGrid, stateOf, type CellState } from "./settled-grid";
import { inWords } from "./summary";
import type { Tools } from "./walk";
import { shorten } from "../file/problem";

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
    const { sheetNames, names } = new BookFormulas(book);
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
