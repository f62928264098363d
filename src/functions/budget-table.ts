import { contribution, isAbsolute, type BudgetRow, type Diagnosis } from "../core/index";
import type { Budget, BudgetInput } from "./budget";
import type { BudgetCheck } from "./budget-check";
import { budgetQuantities, type BudgetQuantity } from "./budget-quantities";
import { warningsOf } from "./budget-warnings";
import { sourceWords, unitOf, type SourceWords } from "./budget-words";
import { finiteRow } from "./finite";
import type { Settings } from "./settings";

/** One row of the table before it is laid out; what is absent is a blank cell. */
interface Row {
  readonly what: string;
  readonly symbol: string;
  readonly value?: number | string | undefined;
  readonly unit?: string;
  readonly sensitivity?: number | undefined;
  readonly contribution?: number | undefined;
  readonly share?: number | undefined;
  readonly freedom?: number | undefined;
  readonly lower?: number | undefined;
  readonly upper?: number | undefined;
  readonly note?: string | undefined;
}

const headings = [
  "source",
  "symbol",
  "standard uncertainty or value",
  "unit",
  "sensitivity",
  "contribution",
  "share",
  "degrees of freedom",
  "lower",
  "upper",
  "note",
];

function laidOut(row: Row): (number | string)[] {
  const { what, symbol, value = "", unit = "", sensitivity = "", contribution = "", share = "" } = row;
  const { freedom, lower = "", upper = "", note = "" } = row;
  const degrees = freedom === undefined ? "" : freedom === Infinity ? "∞" : freedom;
  return finiteRow([what, symbol, value, unit, sensitivity, contribution, share, degrees, lower, upper, note]);
}

/** What a budget cannot count because the sheet does not say it. */
export function notCounted({ settings, baselines }: BudgetInput): string[] {
  const lacking = [
    ["wind speed", settings["wind speed"]],
    ["building height", settings["building height"]],
    ["fan pressure at lowest flow", settings["fan pressure at lowest flow"]],
    ["a baseline after the test", baselines[1]],
  ] as const;
  return lacking.filter(([, value]) => value === undefined).map(([name]) => name);
}

/** Settings without which a row stays at 0. */
const needs: Partial<Record<string, keyof Settings>> = {
  o_f: "fan pressure at lowest flow",
  stack: "building height",
  wind_d: "wind speed",
  wind_p: "wind speed",
};

/** Where a row's uncertainty comes from, in words. */
function noteOf(
  { symbol, label, note }: SourceWords,
  row: BudgetRow | undefined,
  budget: Budget,
  settings: Settings,
): string {
  if (row === undefined) return "";
  if (row.contained === true) return "contained in the larger random row";
  const source = [...budget.shared, ...budget.own].find((one) => one.symbol === symbol);
  if (source === undefined)
    return /^(scatter|stated)_/.test(symbol) ? "the larger random row counts" : "from the other table";
  const need = needs[symbol];
  if (need !== undefined && settings[need] === undefined) return `not counted: give "${need}"`;
  const { size } = budget.quantity;
  const named = symbol === "size" ? size && (`${size} uncertainty` as const) : label;
  if (named === undefined) return `${source.law}${note === undefined ? "" : `; ${note}`}`;
  const given = settings[named] !== undefined;
  return `${source.law}; ${given ? `"${named}" as given` : `${note ?? "assumed"}; "${named}" replaces it`}`;
}

function sourceRows(budget: Budget, settings: Settings): Row[] {
  const places = new Map(budget.rows.map((row, index) => [row.symbol, index]));
  return sourceWords.map((words): Row => {
    const { what, symbol } = words;
    const index = places.get(symbol);
    const row = index === undefined ? undefined : budget.rows[index];
    const { unit, inMethod } = unitOf(words, settings);
    const size = symbol === "size" ? budget.quantity.size : undefined;
    return {
      what: size ?? what,
      symbol,
      unit,
      value: row && row.uncertainty / inMethod,
      sensitivity: row && row.sensitivity * inMethod,
      contribution: row ? contribution(row) : 0,
      share: index === undefined ? 0 : budget.combination.shares[index],
      freedom: row?.degreesOfFreedom,
      note: noteOf(words, row, budget, settings),
    };
  });
}

/** The combined result; its uncertainty is left blank where none can be given. */
function combinedRows(way: string, symbol: BudgetQuantity, budget: Budget, given: boolean, settings: Settings): Row[] {
  const { combination, limits, quantity } = budget;
  const { unit } = quantity;
  const absolute = isAbsolute(quantity.output);
  const per = absolute ? 1 : limits.value;
  const known = (value: number) => (given && value < Infinity ? value : undefined);
  const relative = (value: number) => (absolute ? undefined : known(value));
  const { standardUncertainty, expanded } = combination;
  const percent = `${Number((100 * (settings.confidence ?? 0.95)).toPrecision(6))} %`;
  const logarithmic = absolute ? "result ± expanded" : "result·exp(± expanded, relative)";
  return [
    { what: "direction", symbol: "direction", value: way },
    { what: "result of TESTRESULT", symbol: "quantity", value: symbol, note: 'setting "budget quantity"' },
    {
      what: "result",
      symbol: "result",
      value: limits.value,
      unit,
      lower: known(limits.lower),
      upper: known(limits.upper),
    },
    {
      what: "combined standard uncertainty, relative",
      symbol: "u_rel",
      value: relative(standardUncertainty),
      unit: "–",
    },
    {
      what: "combined standard uncertainty",
      symbol: "u_c",
      value: known(standardUncertainty * per),
      unit,
      note: "JCGM 100:2008, 5.1.2",
    },
    {
      what: "effective degrees of freedom",
      symbol: "dof_eff",
      value: known(combination.effectiveDegreesOfFreedom),
      note: "JCGM 100:2008, G.4.1; blank: infinite",
    },
    { what: "degrees of freedom used", symbol: "dof", value: known(combination.degreesOfFreedom), note: "truncated" },
    { what: `Student's t, ${percent} two-sided`, symbol: "t", value: known(combination.t), unit: "–" },
    {
      what: `expanded uncertainty, ${percent}, relative`,
      symbol: "expanded_rel",
      value: relative(expanded),
      unit: "–",
    },
    { what: `expanded uncertainty, ${percent}`, symbol: "expanded", value: known(expanded * per), unit },
    { what: "lower limit", symbol: "lower", value: known(limits.lower), unit, note: logarithmic },
    { what: "upper limit", symbol: "upper", value: known(limits.upper), unit, note: logarithmic },
  ];
}

function checkRows(check: BudgetCheck, unit: string): Row[] {
  return [
    { what: "Monte Carlo, trials", symbol: "mc_trials", value: check.trials, note: check.note },
    { what: "Monte Carlo, trials that could not be evaluated", symbol: "mc_dropped", value: check.dropped },
    { what: "Monte Carlo, lower limit", symbol: "mc_lower", value: check.lower, unit },
    { what: "Monte Carlo, upper limit", symbol: "mc_upper", value: check.upper, unit },
    { what: "Monte Carlo against the limits above", symbol: "mc_outcome", value: check.outcome },
  ];
}

/** Every result of TESTRESULT with its full interval; blank in the table of a mean, whose parts are known for one result only. */
function intervalRows(budgets: ReadonlyMap<BudgetQuantity, Budget | undefined>, given: boolean): Row[] {
  return budgetQuantities.map((symbol): Row => {
    const budget = budgets.get(symbol);
    if (budget === undefined) return { what: `${symbol} with its full interval`, symbol };
    const { limits, quantity, combination } = budget;
    return {
      what: `${symbol} with its full interval`,
      symbol,
      value: limits.value,
      unit: quantity.unit,
      freedom: given ? combination.degreesOfFreedom : undefined,
      lower: given ? limits.lower : undefined,
      upper: given ? limits.upper : undefined,
    };
  });
}

/** What the table shows. */
export interface Shown {
  readonly way: string;
  readonly symbol: BudgetQuantity;
  readonly budget: Budget;
  readonly diagnosis: Diagnosis;
  readonly check: BudgetCheck;
  readonly intervals: ReadonlyMap<BudgetQuantity, Budget | undefined>;
}

/** The table of fixed shape: sources, combination, Monte Carlo, warnings, intervals. */
export function budgetTable(input: BudgetInput, shown: Shown): (number | string)[][] {
  const { way, symbol, budget, diagnosis, check, intervals } = shown;
  const { settings } = input;
  const given = !diagnosis.tooWindy;
  const warnings = warningsOf(diagnosis, notCounted(input)).map(([key, about, advice]): Row => ({
    what: about,
    symbol: key,
    value: advice === undefined ? "ok" : "warning",
    note: advice,
  }));
  const rows = [
    ...sourceRows(budget, settings),
    ...combinedRows(way, symbol, budget, given, settings),
    ...checkRows(check, budget.quantity.unit),
    ...warnings,
    ...intervalRows(intervals, given),
  ];
  return [...(settings.headings === "yes" ? [headings] : []), ...rows.map(laidOut)];
}
