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
  /** The book's results, from evaluateBook. */
  readonly evaluation: Evaluation;
  /** The add-in's functions, for conditions that call them. */
  readonly addIn: AddInRegistry;
  /** The calls made during evaluation; without them a condition that uses the add-in calls it again. */
  readonly calls?: readonly AddInCall[];
  /** The functions as described by their metadata, the only source of equations and citations. */
  readonly functions: readonly DescribedFunction[];
  /** The time used in the evaluation. */
  readonly now?: Date;
  /** How many steps back to go; by default as far as the inputs. */
  readonly depth?: number;
}

/** Traces one cell at a time, reusing what was found for earlier ones. */
export function traceOf(input: TraceInput): (sheet: number, row: number, column: number) => Trace {
  const { book, evaluation, addIn, calls = [], functions, now, depth = Infinity } = input;
  const bench = new TracedBook(book, evaluation, rememberAnswers(addIn, calls), collectNotes(functions), now);
  return (sheet, row, column) => new Builder(bench, depth).build({ sheet, row, column });
}
