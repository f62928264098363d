import { type MethodError, unitNames } from "../../core/index";
import type { AllRules } from "./rule-codes";
import { shorten } from "./text";

/** A sentence with the names of its data in braces, or a function that writes it. */
type Sentences = { readonly [Code in keyof AllRules]: string | ((data: NonNullable<AllRules[Code]>) => string) };

/** 1048576 as "1 048 576", −500 with a proper minus sign. */
function grouped(number: number): string {
  return String(number)
    .replace(/\B(?=(\d{3})+$)/g, " ")
    .replace("-", "−");
}

interface Bounds {
  readonly lowest: number;
  readonly highest: number;
}

const between = ({ lowest, highest }: Bounds) => `between ${grouped(lowest)} and ${grouped(highest)}`;

const allLabels = 'on the add-in\'s page (Home, Stillair) under "Settings"';

/** "a" or "b". */
const either = (words: readonly string[]) => words.map((word) => `"${word}"`).join(" or ");

const listed = (words: readonly string[]) => words.join(", ");

/** Names a value that is neither a usable number nor text. */
function nameOf(value: unknown): string {
  if (typeof value === "boolean") return String(value);
  return typeof value === "number" ? "a number that is not finite" : "a card without a number";
}

const beyondExcel = ({ cells, most }: AllRules["beyondExcel"]) =>
  `the result would have ${grouped(cells)} cells, more than Excel's limit of ${grouped(most)}; `;

/**
 * The sentence of each rule for the person at the sheet. The place is put in front of it, and the value that broke the rule behind it, if known.
 * No code reads these sentences, so rewording one cannot break a command.
 */
const sentences: Sentences = {
  tooFew: "{least} {of} are needed, {count} so far",
  neededWith: "needed with {other}",
  twice: '"{what}" appears twice',
  tooLarge: "too large or too small to calculate with",
  aboveZero: "must be above 0",
  zeroOrMore: "must be 0 or more",
  oneOrMore: "must be 1 or more",
  aboveZeroUpTo: "above 0 and not more than {highest}",
  notZero: "must not be 0",
  wholeNumber: "a whole number from {lowest} to {highest}",
  altitude: (data) => `${between(data)} m; did you type feet?`,
  barometer: (data) => `${between(data)} Pa; did you type hPa?`,
  temperature: (data) => `a temperature ${between(data)} °C; did you type °F or K?`,
  temperatureDifference: "not more than {highest} K",
  windSpeed: (data) => `${between(data)} m/s`,
  weatherFactor: "of the site, usually between 0.3 and 1.2",
  measuringHeight: "between the ground and the height",
  neutralHeight: "not further from the building than its height",
  exponent: "from 0.5 to 1, with some margin",
  exponentUncertainty: "its standard uncertainty must be from 0 to 1",
  heatCapacity: "air has 0.33 to 0.34 Wh/(m³·K) near sea level (IP: about 1.08)",
  confidence: "a fraction from 0.5 to below 1, 0.95 for 95 %",
  probability: "must be above 0 and below 1",
  fraction: "a fraction from 0 to 1, 0.5 for 50 %",
  smallFraction: "a fraction, 0.02 for 2 %",
  lengthTolerance: "a length of 0 or more, in the unit of the heights",
  allCommon: "it is all of both uncertainties: nothing is left to compare",
  belowCommonPart:
    "{uncertainty} is less than its common part, {common}: give the whole uncertainty, the common part as a fraction",
  sameCorner: "corner {corner} coincides with corner {other}",
  wallsMeet: "wall {wall} meets wall {other}: list the corners in order around the plan; deduct voids separately",
  wallTurnsBack: "the wall turns back on itself at corner {corner}",
  cornersOnLine: "the corners lie on one line",
  flatRoofRises: "a flat roof has no rise: leave it blank or name the roof shape",
  noRoofRise: "a {roof} roof needs its rise above the eaves",
  noVolumeLeft: "the deductions leave no volume",
  belowBaseline: "{pressure} Pa does not exceed the baseline of {baseline} Pa",
  otherSign: "{pressure} Pa has the opposite sign to row {first}: one direction, one sign",
  otherDirection: ({ pressure, direction }) =>
    `a ${direction} reading is ${direction === "pressurization" ? "above" : "below"} 0 as indoors minus outdoors ` +
    `(got ${pressure} Pa); set the pressure sign if your readings are signed otherwise or are magnitudes`,
  baselineOrder: "must be later than the baseline before",
  timeOutsideBaselines: "its time is not between the two baselines",
  densityUnits: ({ calibration, actual }) =>
    `${shown(calibration, 4)} against ${shown(actual, 4)} for the air at the device: are both in the same unit?`,
  outsideCalibration: "{reading} lies outside the calibrated range, {lowest} to {highest}",
  pointFalls: "the value {value} falls while the reading rises",
  timeNotRising: "the time {time} is not later; past midnight the date is needed",
  timeUnitUnclear: 'rows {interval} apart could be seconds or days: give the "time unit"',
  pressuresAlike: "the pressures do not vary: a line needs different pressures",
  flowsAlike: "the flows do not vary: organic correlation has no line",
  flowNotRising: "the flow does not rise with pressure",
  lineNotSettled: "its line does not converge in {steps} steps: check the stated uncertainties",
  noUncertaintyInRow: "row {row} has none",
  techniqueNeeds: 'the technique "{technique}" needs the standard uncertainty of every {quantity}',
  bothUncertaintiesZero: "the uncertainties of a pressure and its flow cannot both be 0",
  correlation: "a correlation must lie between −1 and 1",
  pressuresNotApart:
    "two clearly different pressures are needed, such as 50 and 12.5 Pa (nearest are {above} and {below} Pa)",
  noResult: 'no result yet; one direction alone counts only with one_direction "accept"',
  limitNeedsDefinition: "a limit on a leakage area needs its definition: they differ by a factor of two",
  definitionFixes: '"{definition}" fixes it at {fixed}',
  ruleTakesUnrounded: 'the rule "{rule}" compares unrounded values; leave decimals blank',
  likelyOutsideRange: ({ likely = "no likely flow", low, high }) =>
    `the likely flow lies between low and high (got ${likely}, ${low} to ${high})`,
  repairsExceedFlow: "they remove more than the leakage: {left} m³/h would be left",
  highestNotAbove: "must be above the lowest, {lowest} Pa",
  otherQuantity: ({ from, to, is, wanted }) => {
    // A unit is recognized with any number of blanks or dots in its name.
    const [given, other] = [from, to].map((name) => name.replace(/\s+/g, " ").slice(0, 40));
    return `${given} is a unit of ${is}, ${other} of ${wanted}; choose one of ${listed(unitNames(is))}`;
  },
  belowAbsoluteZero: "below absolute zero",

  cellError: "the cell holds {error}",
  numberNeeded: ({ given }) =>
    `a number is needed, not ${typeof given === "string" ? `the text "${shorten(given)}"` : nameOf(given)}`,
  wordsNeeded: ({ given }) => `text is needed, not ${typeof given === "number" ? given : nameOf(given)}`,
  notGiven: "not given yet",
  notGivenNorZero: "not given yet; 0 if it is not to count",
  choiceNeeded: "not given yet; one of {words}",
  notOneOf: ({ given, words }) => `"${shorten(String(given), 30)}" is not one of: ${listed(words)}`,
  oneColumn: "one column is needed",
  columns: "the columns are: {columns}",
  unlikeSize: "{count} for {others} {of}: the numbers must match",
  oneCell: "one cell is needed, not {count}",
  beyondExcel: (data) => beyondExcel(data) + "give the rows in use, such as A2:A500, not a whole column",
  stationsBeyondExcel: (data) => beyondExcel(data) + 'a longer "shortest station" finds fewer',
  without: "{part} without its {lacks}",
  partBlank: "part of the range is blank",
  halfPair: ({ row, lacks, isZero }) =>
    `row ${row} has a ${lacks === "flow" ? "pressure" : "flow"} but no ${lacks}${isZero ? ": 0 is not a reading" : ""}`,
  fanWithoutFlow: 'row {row} has no flow for fan {fan}; type "off" if it did not run',
  takesNoUncertainties: 'the technique "{technique}" takes no uncertainties; leave it out',
  cellsInRow: "{count} columns, the log has {width}",
  columnsUnlisted: 'the log has {width} columns: name them under "columns", such as "time, pressure, fan pressure"',
  timeAndPressure: "time and pressure are needed",
  fanPressureOrFlow: 'fan pressure or flow, not both; call the other one "other"',
  calibrationNeeded: 'a log of fan pressures needs "fan coefficient" and "fan exponent"',
  noStation: "no stretch is steady for long enough; a wider tolerance or a shorter station may find one",
  date: "an Excel date",
  letters: 'letters, one per reading, such as AAABBB, or names of "opening names", separated by ;',
  beaufort: "a Beaufort number from 0 to 12",
  trials: "from 1 000 to 1 000 000",
  numberOrWord: 'a number is needed, or the word "{word}"',
  numberList: "numbers above 0 are needed, separated by ;",
  unknownLabel: ({ label, like }) => {
    if (label === "?") return `the labels are listed ${allLabels}`;
    const unknown = `unknown label "${shorten(label, 40)}"`;
    return like.length === 0
      ? `${unknown}; all are listed ${allLabels}`
      : `${unknown}; did you mean ${either(like)}? The label "?" says where all are listed`;
  },
  settingNeeded: ({ label, words, by }) =>
    `"${label}" is not given yet${by ? `; ${by} needs it` : words ? `; it is one of: ${listed(words)}` : ""}`,
  seaLevelLikely: ({ read, usual }) =>
    `${shown(read)} Pa does not fit the altitude, where about ${shown(usual)} Pa is usual; was it reduced to sea level?`,
  lettersTo: "letters from A to {last}",
  originUnclear: "0, 0 could be a corner or a blank row: list such a corner first, or leave the row out",
  unknownUnit: ({ unit, like = [] }) =>
    `unknown unit "${shorten(unit)}"; ${
      like.length > 0 ? `did you mean ${either(like)}?` : "Excel suggests the known ones while you type"
    }`,
  checksNeeded: "the whole table of VALIDITYCHECKS is needed, {columns} columns and {rows} rows for each direction",
  checksOutdated: "the table has {older} checks for each direction; recalculate VALIDITYCHECKS over {rows} rows",
  checkOpen: ({ check, advice }) => `"${shorten(check)}" cannot be judged yet: ${shorten(advice, 120)}`,
  directionOpen: 'no checks of {direction}; for a result of one direction alone name it under "directions"',
  testOpen: "the checks of the test are still open",
  budgetNeeded: 'the whole table of UNCERTAINTYBUDGET is needed; it has no row "{symbol}"',
  budgetForNeeded: "a budget for {wanted} is needed",
  noBudgetUncertainty: "no uncertainty can be given for it",
  noBudgetFreedom: 'row "{symbol}" has no degrees of freedom',
  budgetTwice: "a table of {direction} with the result {value} is counted twice",
  budgetOpenings: 'row "{symbol}" is of another opening: give both the same "opening names"',
  budgetReadings: 'its row "mc_readings" was changed',
};

/** A piece of the data, formatted for a sentence. */
function shownPart(part: unknown): string {
  if (Array.isArray(part)) return listed(part as string[]);
  return typeof part === "string" ? shorten(part) : String(part);
}

/** A number, formatted for a sentence. */
function shown(value: number, digits = 6): string {
  return String(Number(value.toPrecision(digits)));
}

/** The name of the parameter that an error is about; undefined if the error is about a setting. */
export function argumentOf({
  term,
  place: { argument = term.replaceAll(" ", "_"), setting },
}: MethodError): string | undefined {
  return setting === undefined ? argument : undefined;
}

/**
 * The message of an error, as shown in the cell, by a command and on a page: the place as this call names it, the sentence of the rule, and the value that
 * broke it.
 */
export function describeError(error: MethodError): string {
  const { code, data } = error;
  const { setting, row } = error.place;
  const says = sentences[code as keyof AllRules] as string | ((given: unknown) => string);
  const words =
    typeof says === "string"
      ? says.replace(/\{(\w+)\}/g, (_, name: string) => shownPart((data as Record<string, unknown>)[name]))
      : says(data);
  const rule = (setting === undefined ? "" : `${setting}: `) + words;
  const { got } = (data ?? {}) as { readonly got?: number | string | boolean };
  const where = (argumentOf(error) ?? "settings") + (row === undefined ? "" : `, row ${row}`);
  // A long rule leaves less room for what was typed.
  const room = Math.max(20, Math.min(80, 202 - rule.length));
  const behind = got === undefined ? "" : ` (got ${typeof got === "number" ? shown(got) : shorten(String(got), room)})`;
  return `${where}: ${rule}${behind}`;
}
