import { type BudgetRow, contribution, type Diagnosis, isAbsolute, methodVersion, type Source } from "../../core/index";
import { percent } from "../cells/table";
import { budgetQuantities, type BudgetQuantity } from "../settings/labels";
import type { Settings } from "../settings/settings";
import { type NoiseOrigin, noiseOriginsIn } from "./assumptions";
import type { Budget, BudgetInput } from "./budget";
import type { Quantity } from "./quantity";
import { type BudgetCheck, warningsOf } from "./warnings";
import { markOf, nameSource, sourceWords, type SourceWords, unitOf } from "./words";

/** What a budget cannot count because the sheet does not say it. */
function notCounted({ settings, baselines: { after } }: BudgetInput): string[] {
  const labels = ["wind speed", "building height", "fan pressure at lowest flow"] as const;
  const lacking: string[] = labels.filter((label) => settings[label] === undefined);
  return after === undefined ? [...lacking, "a baseline after the test"] : lacking;
}

/** True where the rows of the baselines give their uncertainties, but are too few to show whether neighbours are correlated. */
function hasFewBaselineRows({ settings, baselines: { correlation, after } }: BudgetInput): boolean {
  if (correlation !== undefined || settings["baseline uncertainty"] !== undefined) return false;
  return (
    settings["baseline before uncertainty"] === undefined ||
    (after !== undefined && settings["baseline after uncertainty"] === undefined)
  );
}

const originWords: Record<NoiseOrigin, string> = {
  "as given": "as given",
  baseline: "from the scatter of the baseline",
  assumed: "assumed",
};

/** The noise of one reading, which gives the random errors their shape, and κ, which gives them their size. */
function noiseRows({ test, settings, baselines }: BudgetInput): BudgetCells[] {
  const { noise, random } = test;
  const origins = noiseOriginsIn(settings, baselines);
  const size = noise.stated ? "at least 1: the noise is stated" : "only the ratio of u_P to u_q counts";
  const freedom = random.degreesOfFreedom;
  return [
    budgetRow(
      "noise of one pressure reading",
      "u_P",
      noise.pressure,
      "Pa",
      `${originWords[origins.pressure]}; "pressure uncertainty"`,
    ),
    budgetRow(
      "noise of one flow reading, relative",
      "u_q",
      noise.flow,
      "–",
      `${originWords[origins.flow]}; "flow uncertainty"`,
    ),
    budgetRow("random errors over that noise, √(χ²/(N − 2))", "kappa", random.scale, "–", size, { freedom }),
  ];
}

/** The two directions against each other, where there are both: what they have in common, such as the calibration, cancels. */
function differenceRows({ difference, quantity }: Budget, isKnown: boolean): BudgetCells[] {
  if (difference === undefined || !isKnown) {
    return [
      budgetRow("this direction against the other", "diff"),
      budgetRow("judged by its own uncertainty", "diff_outcome"),
    ];
  }
  const { value, expanded } = difference;
  const absolute = isAbsolute(quantity.output);
  const [shown, unit] = absolute ? [(ln: number) => ln, "–"] : [(ln: number) => 100 * Math.expm1(ln), "%"];
  const limits = { lower: shown(value - expanded), upper: shown(value + expanded) };
  const isExplained = Math.abs(value) <= expanded;
  return [
    budgetRow("this direction against the other", "diff", shown(value), unit, "common errors cancel", limits),
    budgetRow(
      "judged by its own uncertainty",
      "diff_outcome",
      isExplained ? "not significant" : "significant",
      "",
      isExplained ? "" : "look for what opens or closes with the sign: flaps, seals, membranes",
    ),
  ];
}

/** The combined result; its uncertainty is left blank where none can be given. */
function combinedRows({ way, symbol, budget }: Shown, isKnown: boolean, settings: Settings): BudgetCells[] {
  const { combination, limits, quantity } = budget;
  const { value, lower, upper } = limits;
  const { unit } = quantity;
  const { standardUncertainty, expanded } = combination;
  const absolute = isAbsolute(quantity.output);
  const per = absolute ? 1 : value;
  const known = (cell: number) => (isKnown && cell < Infinity ? cell : undefined);
  const relative = (cell: number) => (absolute ? undefined : known(cell));
  const level = percent(settings.confidence);
  const limit = absolute ? "result ± expanded" : "result·exp(± expanded, relative)";
  return [
    budgetRow("direction", "direction", way),
    budgetRow("result of TESTRESULT", "quantity", symbol, "", 'setting "budget quantity"'),
    budgetRow("result", "result", value, unit, "", { lower: known(lower), upper: known(upper) }),
    budgetRow("combined standard uncertainty, relative", "u_rel", relative(standardUncertainty), "–"),
    budgetRow("combined standard uncertainty", "u_c", known(standardUncertainty * per), unit, "JCGM 100:2008, 5.1.2"),
    budgetRow(
      "effective degrees of freedom",
      "dof_eff",
      known(combination.effectiveDegreesOfFreedom),
      "",
      "JCGM 100:2008, G.4.1; blank: infinite",
    ),
    budgetRow("degrees of freedom used", "dof", known(combination.degreesOfFreedom), "", "truncated"),
    budgetRow(`Student's t, ${level} two-sided`, "t", known(combination.t), "–"),
    budgetRow(`expanded uncertainty, ${level}, relative`, "expanded_rel", relative(expanded), "–"),
    budgetRow(`expanded uncertainty, ${level}`, "expanded", known(expanded * per), unit),
    budgetRow("lower limit", "lower", known(lower), unit, limit),
    budgetRow("upper limit", "upper", known(upper), unit, limit),
  ];
}

function checkRows({ trials, dropped, lower, upper, outcome, note }: BudgetCheck, unit: string): BudgetCells[] {
  return [
    budgetRow("Monte Carlo, trials", "mc_trials", trials, "", note),
    budgetRow("Monte Carlo, trials that could not be evaluated", "mc_dropped", dropped),
    budgetRow("Monte Carlo, lower limit", "mc_lower", lower, unit),
    budgetRow("Monte Carlo, upper limit", "mc_upper", upper, unit),
    budgetRow("Monte Carlo against the limits above", "mc_outcome", outcome),
  ];
}

/** Every result of TESTRESULT with its full interval; in the table of a mean, whose parts are known for the chosen result only, the others are blank. */
function intervalRows(budgets: Shown["intervals"], isKnown: boolean): BudgetCells[] {
  return budgetQuantities.map((symbol) => {
    const budget = budgets.get(symbol);
    const { value, lower, upper } = budget?.limits ?? {};
    const freedom = budget?.combination.degreesOfFreedom;
    const interval = isKnown ? { freedom, lower, upper } : {};
    return budgetRow(`${symbol} with its full interval`, symbol, value, budget?.quantity.unit, "", interval);
  });
}

/** What the table shows. */
interface Shown {
  readonly way: string;
  readonly symbol: BudgetQuantity;
  readonly budget: Budget;
  readonly diagnosis: Diagnosis;
  readonly check: BudgetCheck;
  /** This run, for the check of a mean. */
  readonly run: string;
  readonly intervals: ReadonlyMap<BudgetQuantity, Budget | undefined>;
}

/** The table of fixed shape: sources, combination, Monte Carlo, warnings, intervals. */
export function budgetTable(input: BudgetInput, shown: Shown): BudgetCells[] {
  const { budget, diagnosis } = shown;
  const { settings } = input;
  const isKnown = !diagnosis.tooWindy;
  return [
    ...(settings.headings === "yes" ? [budgetHeadings] : []),
    ...sourceRows(budget, input),
    ...noiseRows(input),
    ...combinedRows(shown, isKnown, settings),
    ...differenceRows(budget, isKnown),
    ...checkRows(shown.check, budget.quantity.unit),
    ...warningsOf(diagnosis, notCounted(input), hasFewBaselineRows(input)).map(([symbol, about, advice]) =>
      budgetRow(about, symbol, advice === undefined ? "ok" : "warning", "", advice),
    ),
    ...intervalRows(shown.intervals, isKnown),
    budgetRow(
      "readings of this run, for the check of a mean",
      "mc_readings",
      shown.run === "" ? "" : input.test.readings.length,
      "",
      shown.run,
    ),
    budgetRow("version of the method", "method", methodVersion),
  ];
}

/** Cells that a row may leave out; what is absent is blank, and infinite degrees of freedom are ∞. */
interface MoreCells {
  readonly sensitivity?: number | undefined;
  readonly contribution?: number | undefined;
  readonly share?: number | undefined;
  readonly freedom?: number | undefined;
  readonly lower?: number | undefined;
  readonly upper?: number | undefined;
}

type BudgetCells = (number | string)[];

const budgetHeadings: BudgetCells = [
  ...["source", "symbol", "standard uncertainty or value", "unit", "sensitivity", "contribution"],
  ...["share", "degrees of freedom", "lower", "upper", "note"],
];

/** One row of the table, eleven cells. */
function budgetRow(
  what: string,
  symbol: string,
  value: number | string = "",
  unit = "",
  note = "",
  more: MoreCells = {},
): BudgetCells {
  const { sensitivity = "", contribution = "", share = "", freedom = "", lower = "", upper = "" } = more;
  const degrees = freedom === Infinity ? "∞" : freedom;
  return [what, symbol, value, unit, sensitivity, contribution, share, degrees, lower, upper, note];
}

/** Where the uncertainty of a baseline's mean comes from. */
function noteOfBaseline(when: "before" | "after", { settings, baselines }: BudgetInput): string {
  for (const label of [`baseline ${when} uncertainty`, "baseline uncertainty"] as const) {
    if (settings[label] !== undefined) return `normal; "${label}" as given`;
  }
  const { correlation, [when]: set } = baselines;
  if (set === undefined) return "none was read";
  const rows =
    correlation === undefined
      ? "taken as independent: too few to tell"
      : correlation === 0
        ? "which look independent"
        : `neighbours correlated by ${correlation.toFixed(2)}`;
  return `normal; from its readings, ${rows}; "baseline ${when} uncertainty" replaces it`;
}

/** Where a row's uncertainty comes from, in words. */
function noteOf(
  { symbol, label, note, needs }: SourceWords,
  row: BudgetRow,
  source: Source | undefined,
  { size }: Quantity,
  input: BudgetInput,
): string {
  const { settings } = input;
  if (row.contained === true) return "for comparison: contained in the row above";
  if (source === undefined) {
    const isOfThis = symbol === `scatter_${markOf(input.test.direction)}`;
    return isOfThis ? "κ times the row below; JCGM 100:2008, 4.2" : "from the other table";
  }
  const { law } = source;
  if (source.effect === "baselineBefore") return noteOfBaseline("before", input);
  if (source.effect === "baselineAfter") return noteOfBaseline("after", input);
  if (needs !== undefined && settings[needs] === undefined) return `not counted: give "${needs}"`;
  const named = symbol === "size" && size ? (`${size} uncertainty` as const) : label;
  if (named === undefined) return note === undefined ? law : `${law}; ${note}`;
  if (settings[named] !== undefined) return `${law}; "${named}" as given`;
  return `${law}; ${note ?? "assumed"}; "${named}" replaces it`;
}

/** A row for every source, those of the direction that the budget does not hold with a contribution of 0. */
function sourceRows(budget: Budget, input: BudgetInput): BudgetCells[] {
  const { rows, combination, quantity, sources } = budget;
  const { settings } = input;
  const known = new Map([...sources.shared, ...sources.own].map((source) => [source.symbol, source]));
  const places = new Map(rows.map(({ symbol }, index) => [symbol, index]));
  return sourceWords.map((words) => {
    const { symbol } = words;
    const { unit, inMethod } = unitOf(words, settings);
    const index = places.get(symbol) ?? -1;
    const row = rows[index];
    if (row === undefined) return budgetRow(words.what, symbol, "", unit, "", { contribution: 0, share: 0 });
    const what = symbol === "size" ? (quantity.size ?? words.what) : nameSource(words, settings);
    return budgetRow(
      what,
      symbol,
      row.uncertainty / inMethod,
      unit,
      noteOf(words, row, known.get(symbol), quantity, input),
      {
        sensitivity: row.sensitivity * inMethod,
        contribution: contribution(row),
        share: combination.shares[index],
        freedom: row.degreesOfFreedom,
      },
    );
  });
}
