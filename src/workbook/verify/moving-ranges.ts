import { AddInCalls } from "../formula/add-in";
import type { Evaluation } from "../formula/evaluation";
import { ordinaryFunctions } from "../formula/functions/index";
import { Interpreter } from "../formula/interpreter";
import { NotEvaluated } from "../formula/refusal";
import type { Place } from "../formula/references";
import type { Node } from "../formula/syntax";
import { Reference, type SheetArea } from "../formula/value";
import type { Book } from "../model";
import type { BookFormulas } from "../reads/book-formulas";
import { settledGrid } from "../trace/settled-grid";

/** Ranges whose place is computed, as they lie with the book's present values. */
export class MovingRanges {
  private readonly interpreter: Interpreter;

  constructor(book: Book, evaluation: Evaluation, { parser, names, sheetNames }: BookFormulas) {
    const grid = settledGrid(book, evaluation, parser);
    const addIn = new AddInCalls(new Map(), false);
    this.interpreter = new Interpreter({ grid, sheetNames, names, functions: ordinaryFunctions, addIn });
  }

  areas(node: Node, { sheet, row, column }: Place): SheetArea[] {
    const frame = { sheet, row, column, kind: "dynamic", scope: undefined, now: undefined } as const;
    try {
      const value = this.interpreter.evaluate(node, frame, "array");
      return value instanceof Reference ? [...value.areas] : [];
    } catch (problem) {
      // What cannot be evaluated is told of where its own cell is.
      if (problem instanceof NotEvaluated) return [];
      throw problem;
    }
  }
}
