import { AddInCalls, type AddInRegistry } from "../formula/calls/add-in";
import type { Evaluation } from "../formula/evaluation";
import type { Frame } from "../formula/references/frame";
import { ordinaryFunctions } from "../formula/functions/index";
import { Interpreter } from "../formula/interpreter";
import { NotEvaluated } from "../formula/values/refusal";
import type { Place } from "../formula/references/references";
import type { Node } from "../formula/parse/syntax";
import { Matrix, Reference, type Scalar, type SheetArea } from "../formula/values/value";
import { limitsAfter, Work } from "../formula/values/work";
import type { Book } from "../model";
import type { BookFormulas } from "../book/formulas";
import { settledGrid } from "../trace/workbench";

/** Parts of formulas, evaluated by themselves with the book's present values. */
export class FormulaParts {
  private readonly interpreter: Interpreter;
  private readonly work: Work;

  constructor(
    book: Book,
    evaluation: Evaluation,
    { names, sheetNames }: BookFormulas,
    registry: AddInRegistry,
    private readonly now: Date,
  ) {
    this.work = new Work(limitsAfter(evaluation.work));
    const grid = settledGrid(book, evaluation);
    const addIn = new AddInCalls(registry, false);
    this.interpreter = new Interpreter({ grid, sheetNames, names, functions: ordinaryFunctions, addIn });
  }

  /** The areas that a range whose place is computed means now; none where it is no range. */
  areas(node: Node, place: Place): SheetArea[] {
    const value = this.attempt((frame) => this.interpreter.evaluate(node, frame, "array"), place);
    return value instanceof Reference ? [...value.areas] : [];
  }

  /** The values of a part, row by row; undefined where it cannot be evaluated. */
  values(node: Node, place: Place): Scalar[] | undefined {
    const found = this.attempt((frame) => this.interpreter.operand(node, frame, "array"), place);
    return found instanceof Matrix ? [...found.values] : found === undefined ? undefined : [found];
  }

  private attempt<T>(evaluate: (frame: Frame) => T, { sheet, row, column }: Place): T | undefined {
    try {
      this.work.startFormula();
      return this.work.during(() => evaluate({ sheet, row, column, kind: "dynamic", scope: undefined, now: this.now }));
    } catch (problem) {
      // What cannot be evaluated, be it that it is nested too deeply, is told of where its own cell is.
      if (problem instanceof NotEvaluated || problem instanceof RangeError) return undefined;
      throw problem;
    }
  }
}
