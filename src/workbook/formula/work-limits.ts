import { NotEvaluated } from "./values/refusal";

/** The limits on calculating one workbook. */
export interface WorkLimits {
  /** A step is roughly the cost of reading one array value: some hundredths of a microsecond. */
  readonly steps: number;
  /** Bytes held at a time: array results, and the intermediate values of one formula. */
  readonly bytes: number;
}

/** Some seconds, and a quarter of a million cells that arrays fill. The largest sample takes 30 million steps and 3 MB. */
export const usualLimits: WorkLimits = { steps: 200_000_000, bytes: 250_000_000 };

/** What one value takes in an array, and a cell that an array fills: with its place, its outcome and its address, and later in what a command writes. */
const bytesOf = { value: 16, cell: 1_000 };

/** Thrown if a formula exceeds the limits. */
export class TooMuchWork extends NotEvaluated {}

/** Creating an array cell costs this many steps. */
const stepsOfCell = 30;

/** The work used by a calculation. */
export interface WorkDone extends WorkLimits {
  readonly limits: WorkLimits;
  /** Whether a formula was abandoned for one of the two. */
  readonly exceeded: readonly ("steps" | "memory")[];
}

/**
 * Counts the work of a calculation, so that no file, however small, runs for minutes or exhausts memory. It counts rather than reads the clock, so
 * the same file gives the same results on every machine. A formula may use half of what is left, so that a runaway one does not stop all others.
 */
export class Work {
  private steps = 0;
  private earlier = 0;
  /** The most steps of this pass. */
  private limit: number;
  /** The most steps the current formula may use. */
  private ceiling: number;
  /** Bytes of results, and of the present formula. */
  private kept = 0;
  private own = 0;
  private most = 0;
  private readonly exceeded = new Set<"steps" | "memory">();

  constructor(
    readonly limits: WorkLimits,
    /** Whether the workbook counts its days from 1904, for texts that are dates. */
    readonly date1904 = false,
  ) {
    this.limit = limits.steps;
    this.ceiling = limits.steps;
  }

  /** Counts the work of a task here. */
  measureWork<T>(task: () => T): T {
    const before = exchange(this);
    try {
      return task();
    } finally {
      exchange(before);
    }
  }

  /** Starts another pass over the book; nothing is kept from the previous one, and each has less work available. */
  startPass(pass: number): void {
    this.earlier += this.steps;
    this.steps = 0;
    this.limit = this.limits.steps / pass;
    this.kept = 0;
    this.own = 0;
  }

  /** True where the next pass may take twice what this one took. */
  hasRoomForAnotherPass(pass: number): boolean {
    return this.steps * 2 < this.limits.steps / (pass + 1);
  }

  startFormula(): void {
    this.own = 0;
    this.ceiling = this.steps + (this.limit - this.steps) / 2;
  }

  take(steps: number): void {
    this.steps += steps;
    if (this.steps <= this.ceiling) return;
    this.steps = this.ceiling;
    this.exceeded.add("steps");
    throw new TooMuchWork(explainSteps(this.limits));
  }

  hold(bytes: number): void {
    this.own += bytes;
    this.most = Math.max(this.most, this.kept + this.own);
    if (this.kept + this.own > this.limits.bytes) this.refuseMemory();
  }

  /** Keeps a result for as long as the book is calculated. */
  keep(bytes: number): void {
    this.hold(bytes);
    this.own -= bytes;
    this.kept += bytes;
  }

  /** Keeps the cells of an array, or returns the reason if there is no room. */
  keepCells(count: number): string | undefined {
    if (this.kept + count * bytesOf.cell > this.limits.bytes) {
      this.exceeded.add("memory");
      return explainMemory(this.limits);
    }
    const steps = count * stepsOfCell;
    if (this.steps + steps > this.limit) {
      this.exceeded.add("steps");
      return explainSteps(this.limits);
    }
    this.steps += steps;
    this.kept += count * bytesOf.cell;
    this.most = Math.max(this.most, this.kept);
    return undefined;
  }

  private refuseMemory(): never {
    this.exceeded.add("memory");
    this.own = 0;
    throw new TooMuchWork(explainMemory(this.limits));
  }

  get done(): WorkDone {
    return { steps: this.earlier + this.steps, bytes: this.most, limits: this.limits, exceeded: [...this.exceeded] };
  }
}

const explainMemory = ({ bytes }: WorkLimits): string =>
  `its results need more memory than remains of the workbook's ${Math.round(bytes / 1e6)} MB`;

const explainSteps = ({ steps }: WorkLimits): string =>
  `it needs more than half of the steps remaining of the workbook's ${Math.round(steps / 1e6)} million`;

/**
 * The counter of the current calculation. It is global rather than passed between functions: every array and every text of a formula
 * counts, wherever it is made, and a calculation is never interrupted by another.
 */
let current = new Work({ steps: Infinity, bytes: Infinity });

function exchange(work: Work): Work {
  const before = current;
  current = work;
  return before;
}

/** Counts steps for the current calculation; ends the formula if there are too many. */
export const spend = (steps: number): void => current.take(steps);

/** Counts the values of an array that is made. */
export function spendArray(values: number): void {
  current.take(5 * values);
  current.hold(values * bytesOf.value);
}

/** Counts a text that is made; short ones cost no more than the step that makes them. */
export function spendText(length: number): void {
  if (length < 256) return;
  current.take(length / 8);
  current.hold(length);
}

/** Counts a long text that is read through. */
export function spendReading(length: number): void {
  if (length >= 256) current.take(length / 8);
}

/** Makes room for the cells of a spilling array; ends the formula if there is none. */
export function keepCells(count: number): void {
  const reason = current.keepCells(count);
  if (reason !== undefined) throw new TooMuchWork(reason);
}

/** Counts the values of a result that stays, long texts with their length. */
export function keepValues(values: readonly unknown[]): void {
  let bytes = values.length * bytesOf.value;
  for (const value of values) if (typeof value === "string") bytes += value.length;
  current.keep(bytes);
}

export const readCurrentWork = (): Work => current;

/** The limits for recalculating a book: if it exceeded them before, hardly anything is allowed for doing it again. */
export const reduceLimits = ({ limits, exceeded }: WorkDone): WorkLimits =>
  exceeded.length === 0 ? limits : { steps: limits.steps / 10, bytes: limits.bytes };
