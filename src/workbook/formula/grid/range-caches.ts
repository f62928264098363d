import type { Scalar } from "../values/value";
import { areaKey, type SheetArea } from "../../book/area";
import { handNothingOn, type HandedOn } from "./slot";

/** The most values kept at a time, so that memory stays within bounds. */
const mostValues = 2_000_000;

/** Cached contents of fully evaluated areas: a thousand lookups in one column read it once. */
export class AreaCache<T> {
  private readonly areas = new Map<string, T>();
  private size = 0;

  get(area: SheetArea): T | undefined {
    return this.areas.get(areaKey(area));
  }

  keep(area: SheetArea, found: T, added: number): void {
    if (this.size + added > mostValues) {
      this.areas.clear();
      this.size = 0;
    }
    this.areas.set(areaKey(area), found);
    this.size += added;
  }
}

interface Run {
  /** The last row added. */
  bottom: number;
  total: number;
  readonly handedOn: HandedOn;
}

/** Running sums down one column, as in SUM(A$1:A1) filled down: each extends the previous one. */
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
      handedOn: handNothingOn(),
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
      run.handedOn.tolerance = Math.max(run.handedOn.tolerance, added.tolerance);
      run.handedOn.largest = Math.max(run.handedOn.largest, added.largest);
    }
    run.total = total;
    run.bottom = area.bottom;
    this.runs.set(key, run);
    return run;
  }
}

/** Numbers equal to the 15 digits that Excel compares share a key. */
const buildNumberKey = (value: number): string => value.toPrecision(15);

/** How often each value occurs in an area, for thousands of COUNTIF calls. */
export class ValueCounts {
  /** By digits; the numbers themselves, since some may differ beyond them. */
  private readonly numbers = new Map<string, Map<number, number>>();
  private readonly texts = new Map<string, number>();
  /** Texts that look like a number. */
  private readonly likeNumbers = new Map<number, number>();

  /** @param asNumber The number that a text looks like, which counts with it. */
  constructor(private readonly asNumber: (text: string) => number | undefined) {}

  add(value: Scalar): void {
    if (typeof value === "number") this.addNumber(value);
    if (typeof value !== "string") return;
    const lower = value.toLowerCase();
    this.texts.set(lower, (this.texts.get(lower) ?? 0) + 1);
    const number = this.asNumber(value);
    // A text counts only with the very number, and raises no doubt beside another.
    if (number !== undefined) this.likeNumbers.set(number, (this.likeNumbers.get(number) ?? 0) + 1);
  }

  private addNumber(value: number): void {
    const key = buildNumberKey(value);
    const same = this.numbers.get(key) ?? new Map<number, number>();
    this.numbers.set(key, same.set(value, (same.get(value) ?? 0) + 1));
  }

  /** How often a value occurs; "doubtful" if another number shows the same digits. */
  countOf(wanted: number | string): number | "doubtful" {
    if (typeof wanted === "string") return this.texts.get(wanted.toLowerCase()) ?? 0;
    const same = this.numbers.get(buildNumberKey(wanted));
    if (same && (same.size > 1 || !same.has(wanted))) return "doubtful";
    return (same?.get(wanted) ?? 0) + (this.likeNumbers.get(wanted) ?? 0);
  }

  get size(): number {
    return this.numbers.size + this.texts.size;
  }
}
