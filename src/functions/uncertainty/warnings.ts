import {
  agreement,
  type Diagnosis,
  type Direction,
  noErrors,
  simulate,
  type SimulatedDirection,
  trial,
} from "../../core/index";
import type { Budget, BudgetInput } from "./budget";
import { type OtherRun, readRun } from "./other-runs";

/** A Monte Carlo check of a budget; blank where it was not asked for or cannot be given. */
export interface BudgetCheck {
  readonly trials: number | "";
  readonly dropped: number | "";
  readonly lower: number | "";
  readonly upper: number | "";
  readonly outcome: string;
  readonly note: string;
}

const blank = { trials: "", dropped: "", lower: "", upper: "", outcome: "" } as const;

interface Run extends SimulatedDirection {
  readonly direction: Direction;
  readonly value: number;
}

/** Weight of each run in the mean: the runs of a direction averaged first, then the directions. */
function weightsOf(runs: readonly Run[]): number[] {
  const directions = new Set(runs.map(({ direction }) => direction)).size;
  return runs.map(({ direction }) => 1 / directions / runs.filter((run) => run.direction === direction).length);
}

/** Evaluates all runs anew with every source drawn from its law, as often as the setting asks, and compares the limits of their mean with the budget's. */
export function budgetCheck(
  { test, settings }: BudgetInput,
  budget: Budget,
  ownValue: number,
  others: readonly OtherRun[],
): BudgetCheck {
  const { "monte carlo trials": wanted, "monte carlo seed": seed = 1 } = settings;
  if (wanted === undefined) return { ...blank, note: 'off: setting "monte carlo trials", 20000 for a check' };
  if (others.some(({ readings }) => readings === ""))
    return { ...blank, note: "another run has too many readings to be kept in its table" };
  const trials = Math.floor(wanted);
  const { sources, limits, combination, quantity } = budget;
  const { output } = quantity;
  const runs: Run[] = [
    { direction: test.direction, value: ownValue, test, sources: sources.own },
    ...others.map(({ direction, value, readings }) => ({ direction, value, ...readRun(readings) })),
  ];
  const absolute = output.of === "exponent";
  const weights = weightsOf(runs);
  const nominal = runs.map((run) => trial(run.test, noErrors())?.(output) ?? NaN);
  const { dropped, distributions } = simulate(
    runs,
    sources.shared,
    [
      (results) =>
        results.reduce((sum, result, index) => {
          const found = result(output);
          return sum + weights[index]! * (absolute ? found : runs[index]!.value * Math.exp(found - nominal[index]!));
        }, 0),
    ],
    { trials, seed, confidence: settings.confidence },
  );
  const found = distributions?.[0];
  if (found === undefined)
    return { ...blank, trials, dropped, note: "no result: more than 0.1 % of the trials could not be evaluated" };
  const uncertainty = combination.standardUncertainty * (absolute ? 1 : limits.value);
  const outcome = agreement(limits, found, uncertainty);
  return { trials, dropped, lower: found.lower, upper: found.upper, outcome, note: "JCGM 101:2008, 8.1" };
}

/** A warning that always has its row: what it is about, and what to do where it applies. */
type Warning = readonly [symbol: string, about: string, advice: string | undefined];

const shownPa = (value: number) => Number(value.toPrecision(2));

/**
 * @param missing What the budget could not count because the sheet does not say it.
 * @param fewBaselineRows Whether the correlation of the baseline's rows matters but cannot be estimated.
 */
export function warningsOf(diagnosis: Diagnosis, missing: readonly string[], fewBaselineRows: boolean): Warning[] {
  const { scatter, weakBelow } = diagnosis;
  const when = (applies: boolean, advice: string) => (applies ? advice : undefined);
  return [
    ["w_few", "number of readings", when(diagnosis.fewReadings, "few readings: take 8 or more")],
    [
      "w_weak",
      "uncertainty of the induced pressures",
      when(
        diagnosis.weak,
        `n and low-pressure results are weak: repeat in calmer weather, or drop readings below ${shownPa(weakBelow)} Pa`,
      ),
    ],
    [
      "w_unusable",
      "use for n",
      when(diagnosis.unusable, "test not usable for n or low pressures: repeat in calmer weather"),
    ],
    [
      "w_wind",
      "wind against the lowest reading",
      when(
        diagnosis.tooWindy,
        "no uncertainty can be given for these readings: repeat in calmer weather or start higher",
      ),
    ],
    [
      "w_extrapolated",
      "pressure among the readings",
      when(
        diagnosis.extrapolated,
        "extrapolated: neither the fit nor a simulation sees a wrong power law; read up to this pressure",
      ),
    ],
    [
      "w_rows",
      "number of baseline readings",
      when(fewBaselineRows, "too few to tell whether gusts make neighbours alike: read 10 or more over 30 s"),
    ],
    ["w_moved", "movement of the baseline", when(diagnosis.baselineMoved, "baseline moved: repeat")],
    [
      "w_scatter",
      "scatter against stated uncertainty",
      scatter === "larger than stated"
        ? "scatter larger than stated: look for gusts, doors or a wrong reading"
        : scatter === "smaller than stated"
          ? "stated too large, or readings smoothed or copied"
          : undefined,
    ],
    ["w_missing", "everything counted", when(missing.length > 0, `not counted, for want of ${missing.join(", ")}`)],
  ];
}
