import { type SheetArea, sizeOf } from "../book/area";
import { recallFormulas } from "../book/formulas";
import { Inspector } from "../book/inspector";
import { shorten } from "../file/problem";
import type { AddInRegistry } from "../formula/calls/add-in";
import type { Evaluation } from "../formula/evaluation";
import type { Slot } from "../formula/grid/slot";
import { reduceLimits, Work } from "../formula/work-limits";
import type { Book } from "../model";
import type { Explanation } from "./explain";
import type { Tools } from "./explanation";
import type { FunctionNote } from "./function-notes";
import { describeValue } from "./tree";

/** A book as a trace queries it: the inspector, and formulas, names and circular references in words. */
export class TracedBook extends Inspector {
  readonly tools: Tools;
  private readonly explanations = new Map<Slot, Explanation>();
  private readonly names: ReadonlyMap<string, string>;
  private readonly circles: ReadonlyMap<string, readonly string[]>;

  constructor(
    book: Book,
    evaluation: Evaluation,
    addIn: AddInRegistry,
    functions: ReadonlyMap<string, FunctionNote>,
    now: Date | undefined,
  ) {
    super(book, evaluation, addIn, now);
    this.tools = {
      interpreter: this.interpreter,
      work: new Work(reduceLimits(evaluation.work)),
      names: recallFormulas(book).names,
      functions,
      nameArea: (area) => this.nameArea(area),
      nameValue: describeValue,
    };
    this.names = new Map(book.names.map(({ name, text }) => [text.replaceAll("$", ""), name]));
    this.circles = new Map(evaluation.cycles.flatMap((circle) => circle.map((address) => [address, circle] as const)));
  }

  /** A formula is explained once, however often it is reached. */
  rememberExplanation(slot: Slot, explained: () => Explanation): Explanation {
    let known = this.explanations.get(slot);
    if (!known) this.explanations.set(slot, (known = explained()));
    return known;
  }

  /** The defined name of a cell or range, "" if it has none; Excel's built-in names, such as print areas, do not count. */
  nameOf(address: string): string {
    const name = this.names.get(address) ?? "";
    return name.startsWith("_xl") ? "" : name;
  }

  findCycle(addresses: readonly string[]): readonly string[] | undefined {
    return addresses.map((address) => this.circles.get(address)).find((circle) => circle !== undefined);
  }

  private nameArea(area: SheetArea): string {
    const { text } = this.labels.describeArea(area);
    const count = sizeOf(area);
    const cells = count === 1 ? "" : ` (${String(count)} cells)`;
    if (text !== "") return `“${shorten(text)}”${cells}`;
    const address = this.formatArea(area);
    return this.nameOf(address) || address;
  }
}
