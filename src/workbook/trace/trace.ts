import type { AddInCall, AddInRegistry } from "../formula/calls/add-in";
import { rememberAnswers } from "../formula/calls/remember-answers";
import type { Evaluation } from "../formula/evaluation";
import type { Book } from "../model";
import { Builder } from "./node-builder";
import { type DescribedFunction, collectNotes } from "./function-notes";
import type { Trace } from "./tree";
import { TracedBook } from "./traced-book";

export interface TraceInput {
  readonly book: Book;
  /** What the book gives, from evaluateBook. */
  readonly evaluation: Evaluation;
  /** The add-in's functions, for conditions that ask them. */
  readonly addIn: AddInRegistry;
  /** The calls that the evaluation made; without them a condition that asks the add-in calls it again. */
  readonly calls?: readonly AddInCall[];
  /** The functions as their metadata describes them: equations and sources come from nowhere else. */
  readonly functions: readonly DescribedFunction[];
  /** The clock that the evaluation had. */
  readonly now?: Date;
  /** How many steps back to go; without it as far as the inputs. */
  readonly depth?: number;
}

/** Traces one cell at a time; what was found for one is kept for the next. */
export function traceOf(input: TraceInput): (sheet: number, row: number, column: number) => Trace {
  const { book, evaluation, addIn, calls = [], functions, now, depth = Infinity } = input;
  const bench = new TracedBook(book, evaluation, rememberAnswers(addIn, calls), collectNotes(functions), now);
  return (sheet, row, column) => new Builder(bench, depth).build({ sheet, row, column });
}
