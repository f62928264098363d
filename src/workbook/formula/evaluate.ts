import type { Area, Book } from "../model";
import { AddInCalls, type AddInCall, type AddInRegistry } from "./calls/add-in";
import type { Place } from "../book/area";
import { type Evaluation, reportOf } from "./evaluation";
import { groupOverrides, type CellChange } from "./grid/override";
import { Run, type RunInput } from "./evaluation-pass";
import type { NotEvaluated } from "./values/refusal";
import type { Scalar } from "./values/value";
import { TooMuchWork, usualLimits, Work, type WorkLimits } from "./work-limits";

export interface EvaluateOptions {
  /** The add-in's functions; without them their cells are "not evaluated". */
  readonly addIn?: AddInRegistry;
  /** Blank cells reach add-in functions as 0, as in some hosts; otherwise as null. */
  readonly blankAsZero?: boolean;
  /** Reaches them in place of a blank cell, for functions that want to know which cells are blank. */
  readonly blankMark?: symbol;
  /** Values put into cells before evaluation, for a what-if. */
  readonly set?: readonly CellChange[];
  /** The time for NOW and TODAY; without it they are "not evaluated". */
  readonly now?: Date;
  /** The limits of the calculation; by default the usual ones. */
  readonly limits?: WorkLimits;
  /** Filled with every call of an add-in function, in order. */
  readonly calls?: AddInCall[];
  /** Only these cells are wanted: they and what they need are evaluated, the others have no outcome. */
  readonly only?: readonly Place[];
  /** How far dynamic arrays reach, from an evaluation of nearly the same book. */
  readonly spills?: Evaluation["spills"];
}

/** A growing spill changes what is blank elsewhere, so everything is evaluated again; give up after this many passes. */
const mostPasses = 12;

/**
 * Evaluates every formula of a book in dependency order, without Excel.
 *
 * A cell gets a value only if it is certain to be Excel's; everything else, and what depends on it, is listed as not
 * evaluated with the reason. Throws for a change that names an unknown sheet.
 */
export function evaluateBook(book: Book, options: EvaluateOptions = {}): Evaluation {
  const spills = new Map<string, Area>(options.spills?.map(({ address, area }) => [address, area]));
  const endless = new Set<string>();
  const tooMuch = new Map<string, NotEvaluated>();
  const seeds = new Map<string, Scalar>();
  let rounds = 0;
  const input: RunInput = {
    book,
    addIn: new AddInCalls(
      options.addIn ?? new Map(),
      options.blankMark ?? (options.blankAsZero ? 0 : null),
      options.calls,
    ),
    overrides: groupOverrides(book, options.set ?? []),
    spills,
    endless,
    tooMuch,
    seeds,
    iteration: book.iteration,
    now: options.now,
  };
  const work = new Work(options.limits ?? usualLimits, book.date1904);
  for (let pass = 1; ; pass += 1) {
    if (options.calls) options.calls.length = 0;
    work.startPass(pass);
    const run = work.measureWork(() => {
      const started = new Run(input);
      started.scheduler.run(options.only?.flatMap((place) => started.grid.findFormula(place) ?? []));
      return started;
    });
    for (const { failure, address } of run.listFailures())
      if (failure instanceof TooMuchWork) tooMuch.set(address, failure);
    const grown = run.findUnforeseenSpills();
    if (grown.length === 0) {
      rounds += 1;
      if (run.settleCircles()) return reportOf(run.grid, run.scheduler.cycles, work.done);
      // Circles that do not settle are told as circles.
      if (rounds > (book.iteration?.count ?? 0) || !work.hasRoomForAnotherPass(pass)) input.iteration = undefined;
      continue;
    }
    for (const slot of grown) {
      const address = run.grid.formatAddress(slot);
      if (pass >= mostPasses) endless.add(address);
      else if (slot.filled) spills.set(address, slot.filled);
    }
  }
}
