import type { Case } from "./cases";
import { quantities, type Quantity } from "./evaluate";
import type { Coverage, Figures, IntervalFigures } from "./tally";

/** A case with its figures. */
export interface Counted {
  readonly of: Case;
  readonly figures: Figures;
}

const words: Readonly<Record<Quantity, string>> = {
  mean: "n50, mean of both directions",
  n50: "n50, one direction",
  q50: "q50, one direction",
  n: "n, one direction",
  ELA4: "ELA4, one direction",
};

/** The range that a coverage should lie in, and the share of unchanged houses called significant; the largest share of refused tests. */
const wanted = { coverage: [0.935, 0.985], significant: 0.06, refused: 0.01 } as const;

const width = 40;
const percent = (share: number, digits = 2) => (100 * share).toFixed(digits);
const cells = (...texts: string[]) => texts.map((text) => text.padStart(11)).join("");
const binomial = (share: number, tests: number) => Math.sqrt((share * (1 - share)) / tests);

function titleOf({ scenario, instruments }: Case): string {
  return `${scenario.name}, ${instruments.name} instruments: ${scenario.about}`;
}

function shares({ covered, below, above }: Coverage): string[] {
  return [covered, below, above].map((share) => percent(share));
}

function quantityLine(quantity: Quantity, figures: IntervalFigures): string {
  const { halfWidth, errorOverStated } = figures;
  const shownWidth = quantity === "n" ? halfWidth.toFixed(4) : `${percent(halfWidth)} %`;
  return `    ${words[quantity]}`.padEnd(width) + cells(...shares(figures), shownWidth, errorOverStated.toFixed(3));
}

function linesOf({ of, figures }: Counted): string[] {
  const name = `  ${of.technique.name}`;
  const { tests, refused, firstRefusal, intervals, scatterOnly, significant } = figures;
  const refusals = refused === 0 ? [] : [`    ${refused} of ${tests} refused, the first: ${firstRefusal}`];
  if (refused === tests) return [name, ...refusals];
  return [
    name,
    ...quantities.map((quantity) => quantityLine(quantity, intervals[quantity])),
    "    n50 by TESTRESULT, scatter only".padEnd(width) + cells(...shares(scatterOnly)),
    ...(significant === undefined
      ? []
      : ["    unchanged, called significant".padEnd(width) + cells(percent(significant))]),
    ...refusals,
  ];
}

/** Every figure of the run that is not as it should be, a line each. */
function outside(counted: readonly Counted[]): string[] {
  const within = (value: number, [lowest, highest]: readonly [number, number]) => value >= lowest && value <= highest;
  return counted.flatMap(({ of, figures }) => {
    const name = `${of.scenario.name}, ${of.instruments.name}, ${of.technique.name}`;
    const { tests, refused, intervals, significant } = figures;
    const refusals = refused > wanted.refused * tests ? [`${name}: ${refused} of ${tests} refused`] : [];
    if (refused === tests) return refusals;
    const coverages = quantities
      .filter((quantity) => !within(intervals[quantity].covered, wanted.coverage))
      .map((quantity) => `${name}: ${words[quantity]} ${percent(intervals[quantity].covered)}`);
    const isFine = significant === undefined || significant <= wanted.significant;
    return [...refusals, ...coverages, ...(isFine ? [] : [`${name}: called significant ${percent(significant)}`])];
  });
}

/** Size, seed and version of a run. */
export interface RunWords {
  readonly seed: number;
  readonly tests: number;
  readonly method: string;
}

/** What the reader has to know of every table: sizes, standard errors, meanings. */
export function headingOf({ seed, tests, method }: RunWords): string {
  const error = (share: number) => percent(binomial(share, tests));
  return [
    `Coverage of 95 % intervals: ${tests} simulated tests each, seed ${seed}, method ${method}.`,
    `Standard errors: covered ${error(0.95)} (at 95 %), below and above ${error(0.025)} (at 2.5 %), called significant ${error(0.05)} (at 5 %),`,
    `error/u ${percent(Math.sqrt(0.5 / tests), 1)} % of it; of the half-widths see each table.`,
    "covered: the interval holds the true value, %; below, above: the true value lies outside on that side, %; half-width: median;",
    "error/u: root mean square of the errors over that of the stated standard uncertainties. The extrapolation allowance is off.",
  ].join("\n");
}

/** The table of one scenario with one set of instruments. */
export function blockOf(counted: readonly Counted[]): string {
  const errors = counted.flatMap(({ figures }) =>
    quantities.map((quantity) => figures.intervals[quantity].halfWidthError),
  );
  const known = errors.filter(Number.isFinite);
  const worst = `(standard errors of the half-widths: at most ${percent(Math.max(...known), 1)} % of them)`;
  return [
    "",
    titleOf(counted[0]!.of),
    ...(known.length === 0 ? [] : [worst]),
    "".padEnd(width) + cells("covered", "below", "above", "half-width", "error/u"),
    ...counted.flatMap(linesOf),
  ].join("\n");
}

/** The end of a run: what lies outside. */
export function endingOf(counted: readonly Counted[]): string {
  const exceptions = outside(counted);
  const [low, high] = wanted.coverage;
  const limits = `${percent(low, 1)} to ${percent(high, 1)} % (called significant: at most ${percent(wanted.significant, 0)} %)`;
  const title = exceptions.length === 0 ? `Nothing lies outside ${limits}.` : `Outside ${limits}:`;
  return ["", title, ...exceptions.map((line) => `  ${line}`)].join("\n");
}

/** The figures for a program, shares as fractions; a figure without tests is null. */
export function jsonOf(counted: readonly Counted[], run: RunWords): string {
  const { tests } = run;
  const rows = counted.map(({ of: { scenario, instruments, technique }, figures }) => ({
    scenario: scenario.name,
    instruments: instruments.name,
    technique: technique.technique,
    noiseStated: technique.noiseStated,
    ...figures,
  }));
  const standardErrors = {
    covered: binomial(0.95, tests),
    below: binomial(0.025, tests),
    above: binomial(0.025, tests),
    significant: binomial(0.05, tests),
    errorOverStated: Math.sqrt(0.5 / tests),
  };
  return JSON.stringify({ ...run, standardErrors, wanted, rows, outside: outside(counted) }, undefined, 2);
}
