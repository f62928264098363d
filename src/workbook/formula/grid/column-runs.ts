import type { HandedOn } from "./reading-notes";
import type { Scalar, SheetArea } from "../values/value";

interface Run {
  /** The last row added. */
  bottom: number;
  total: number;
  readonly handedOn: HandedOn;
}

/** Sums down one column from one start, as in SUM(A$1:A1) filled down: each goes on from the one before and adds what is new. */
export class ColumnRuns {
  private readonly runs = new Map<string, Run | "has an error">();

  /**
   * The sum of the numbers of an area of one column; undefined where it is not in a run: it ends above what was added before, or an error is
   * in it, of which the place counts.
   * @param read Visits the cells of an area and gives what they hand on.
   */
  sum(
    area: SheetArea,
    read: (rest: SheetArea, visitor: (value: Scalar) => void) => Readonly<HandedOn>,
  ): { readonly total: number; readonly handedOn: Readonly<HandedOn> } | undefined {
    const key = `${area.sheet} ${area.left} ${area.top}`;
    const run = this.runs.get(key) ?? {
      bottom: area.top - 1,
      total: 0,
      handedOn: { depth: 0, onClock: false, readsError: false, afterError: false },
    };
    if (run === "has an error" || run.bottom > area.bottom) return undefined;
    let { total } = run;
    if (run.bottom < area.bottom) {
      const added = read({ ...area, top: run.bottom + 1 }, (value) => {
        if (typeof value === "number") total += value;
      });
      if (added.readsError) {
        this.runs.set(key, "has an error");
        return undefined;
      }
      run.handedOn.depth = Math.max(run.handedOn.depth, added.depth);
      run.handedOn.onClock ||= added.onClock;
      run.handedOn.afterError ||= added.afterError;
    }
    run.total = total;
    run.bottom = area.bottom;
    this.runs.set(key, run);
    return run;
  }
}
