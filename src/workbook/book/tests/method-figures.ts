import type { AddInRegistry } from "../../formula/calls/add-in";
import type { Inspector } from "../inspector";
import { askFunction, type EnteredRun } from "./entered-runs";
import type { TestsInBook } from "./tests-in-book";

/** A figure that the method computes from a run, with its symbol and unit; readings have their number in place of the unit. */
export interface MethodFigure {
  readonly symbol: string;
  readonly value: number;
  readonly unit: string;
}

/** A result of a whole test: the mean over its directions, each direction's runs averaged first. */
export interface WholeResult {
  readonly quantity: string;
  readonly value: number;
  readonly unit: string;
  readonly runs: readonly EnteredRun[];
}

/** Quantities that a programme limits. */
export const limitedQuantities = [
  "n50",
  "q50",
  "qE50",
  "qF50",
  "n_pr",
  "q_pr",
  "qE_pr",
  "qF_pr",
  "ELA4",
  "AL10",
  "EqLA10",
] as const;

const columns = { symbol: 1, value: 2, unit: 5 } as const;

/** More ways to choose between evaluations of one series are not tried. */
const mostChoices = 64;

/** What the method computes from the runs of a workbook, whatever the workbook's own formulas say. */
export class MethodFigures {
  private readonly ofRuns = new Map<EnteredRun, readonly MethodFigure[]>();
  private readonly results = new Map<string, readonly WholeResult[]>();

  constructor(
    private readonly view: Inspector,
    private readonly addIn: AddInRegistry,
    private readonly tests: TestsInBook,
  ) {}

  /** Every figure of a run: the numbers of its table of results, and those of each reading. */
  listFigures(run: EnteredRun): readonly MethodFigure[] {
    let found = this.ofRuns.get(run);
    if (!found) this.ofRuns.set(run, (found = this.computeFigures(run)));
    return found;
  }

  private computeFigures(run: EnteredRun): MethodFigure[] {
    const table = askFunction(this.view, this.addIn, "TESTRESULT", run) ?? [];
    const named = table.flatMap((row): MethodFigure[] => {
      const [symbol, value] = [row[columns.symbol], row[columns.value]];
      if (typeof value !== "number" || typeof symbol !== "string") return [];
      return [{ symbol, value, unit: typeof row[columns.unit] === "string" ? String(row[columns.unit]) : "" }];
    });
    const computed = this.tests.computed.find((one) => this.tests.findEntered(one) === run);
    const readings = (computed?.curve.used ?? []).flatMap(({ pressure, flow }, index): MethodFigure[] => {
      const unit = `reading ${index + 1}`;
      return [
        { symbol: "Δp", value: pressure, unit },
        { symbol: "q_env", value: flow, unit },
        { symbol: "ln Δp", value: Math.log(pressure), unit },
        { symbol: "ln q_env", value: Math.log(flow), unit },
      ];
    });
    return [...named, ...readings];
  }

  /** The results that a report may state for a test of these runs, one for each choice between evaluations of the same readings. */
  listResults(runs: readonly EnteredRun[], quantity: string): readonly WholeResult[] {
    const key = `${quantity} ${runs.map(({ call }) => this.view.formatAddress(call.place)).join(" ")}`;
    let found = this.results.get(key);
    if (!found) this.results.set(key, (found = this.computeResults(runs, quantity)));
    return found;
  }

  private computeResults(runs: readonly EnteredRun[], quantity: string): WholeResult[] {
    const of = (run: EnteredRun) => this.listFigures(run).find(({ symbol }) => symbol === quantity);
    const known = runs.filter((run) => of(run) !== undefined);
    const unit = (known[0] && of(known[0])?.unit) ?? "";
    const directions = [...new Set(known.map(({ direction }) => direction))].map((direction) =>
      this.groupBySeries(known.filter((run) => run.direction === direction)),
    );
    const choices = chooseOneOfEach(directions.flat()).slice(0, mostChoices);
    return choices.map((chosen) => {
      const means = directions.map((series) => {
        const own = series.map((evaluations) => chosen.find((run) => evaluations.includes(run))!);
        return computeMean(own.map((run) => of(run)?.value ?? NaN));
      });
      return { quantity, value: computeMean(means), unit, runs: chosen };
    });
  }

  /** Runs of one direction, those that evaluate the same typed pressures together. */
  private groupBySeries(runs: readonly EnteredRun[]): EnteredRun[][] {
    const groups: { readonly sources: ReadonlySet<number>; readonly runs: EnteredRun[] }[] = [];
    for (const run of runs) {
      const sources = this.findTypedPressures(run);
      const same = groups.find((group) => [...sources].some((key) => group.sources.has(key)));
      if (same) same.runs.push(run);
      else groups.push({ sources, runs: [run] });
    }
    return groups.map((group) => group.runs);
  }

  private findTypedPressures({ pressures }: EnteredRun): ReadonlySet<number> {
    const behind = [...this.view.findUpstream([pressures])];
    return new Set(behind.flatMap(([key, place]) => (this.view.isTyped(place) ? [key] : [])));
  }
}

/** One of each group, in every combination. */
function chooseOneOfEach<T>(groups: readonly (readonly T[])[]): T[][] {
  return groups.reduce<T[][]>(
    (chosen, group) =>
      chosen.length > mostChoices ? chosen : chosen.flatMap((others) => group.map((one) => [...others, one])),
    [[]],
  );
}

const computeMean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
