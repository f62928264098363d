import { type MethodError, unitNames } from "../../core/index";
import type { AllRules } from "./refusals";
import { shorten } from "./text";

/** A sentence with the names of its data in braces, or what makes it. */
type Sentences = { readonly [Code in keyof AllRules]: string | ((data: NonNullable<AllRules[Code]>) => string) };

/** 1048576 as "1 048 576", −500 with the sign that a person writes. */
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

const oneColumn = "one column is needed";
const allLabels = 'on the add-in\'s page (Home, Stillair) under "Settings"';

/** "a" or "b". */
const either = (words: readonly string[]) => words.map((word) => `"${word}"`).join(" or ");

const listed = (words: readonly string[]) => words.join(", ");

/** How a value is named that is neither a usable number nor text. */
function nameOf(value: unknown): string {
  if (typeof value === "boolean") return String(value);
  return typeof value === "number" ? "a number that is not finite" : "a card without a number";
}

const beyondExcel = ({ cells, most }: AllRules["beyondExcel"]) =>
  `the result would have ${grouped(cells)} cells, more than the ${grouped(most)} that Excel carries; `;

/**
 * What each rule says to a person at the sheet, without the place and without what it got, which stands behind it where the data has it.
 * No code reads these sentences: whoever improves one can break no command.
 */
const sentences: Sentences = {
  aboveZero: "must be above 0",
  notBelowZero: "must not be below 0",
  zeroOrMore: "must be 0 or more",
  oneOrMore: "must be 1 or more",
  notZero: "must not be 0",
  wholeNumber: "a whole number from {lowest} to {highest}",
  altitude: (data) => `${between(data)} m; did you type feet?`,
  barometer: (data) => `${between(data)} Pa; did you type hPa?`,
  temperature: (data) => `a temperature ${between(data)} °C; did you type °F or K?`,
  temperatureDifference: "not more than {highest} K",
  humidity: (data) => `a fraction ${between(data)}, 0.5 for 50 %`,
  windSpeed: (data) => `${between(data)} m/s`,
  weatherFactor: "of the site, most lie between 0.3 and 1.2",
  measuringHeight: "between the ground and the height",
  neutralHeight: "not further from the building than its height",
  exponent: "from 0.5 to 1, with some margin",
  fittedExponent: "above 0 and not more than 1.5, usually 0.5 to 1",
  exponentUncertainty: "its standard uncertainty is from 0 to 1",
  deviceExponent: "above 0 and not more than 2, usually near 0.5",
  dischargeCoefficient: "above 0 and not more than 1",
  heatCapacity: "outside what air has, 0.33 to 0.34 Wh/(m³·K) near sea level (IP: about 1.08)",
  confidence: "a fraction from 0.5 to below 1, 0.95 for 95 %",
  probability: "must be above 0 and below 1",
  lengthTolerance: "a length of 0 or more, in the unit of the heights",
  inUnitOfResult: "0 or more, in the unit of the result",
  commonShare: "a fraction, 0.02 for 2 %",
  allCommon: "it is all of both uncertainties, so that no difference could be explained",
  belowCommonPart:
    "{uncertainty} is less than its common part, {common}: give the whole uncertainty, the common part as a fraction",
  sameCorner: "corner {corner} stands where corner {other} is",
  wallsMeet: "wall {wall} meets wall {other}: list the corners in order around the plan, and deduct voids as areas",
  wallTurnsBack: "the wall turns back on itself at corner {corner}",
  tooFewCorners: "a plan needs three corners, {count} so far",
  cornersOnLine: "the corners lie on one line",
  flatRoofRises: "a flat roof has no rise: leave it blank or name the roof shape",
  noRoofRise: "a {roof} roof needs its rise above the eaves",
  noSpace: "no space with an area and a height yet",
  noVolumeLeft: "the deductions leave no volume",
  noBaseline: "no baseline reading yet",
  belowBaseline: "{pressure} Pa does not exceed the baseline of {baseline} Pa",
  otherSign: "{pressure} Pa has another sign than row {first}: one direction, one sign",
  otherDirection: ({ pressure, direction }) =>
    `a ${direction} reading is ${direction === "pressurization" ? "above" : "below"} 0 as indoors minus outdoors ` +
    `(got ${pressure} Pa); set the pressure sign if your readings are signed otherwise or are magnitudes`,
  magnitude: "a magnitude is above 0 (got {pressure} Pa)",
  magnitudeNeedsDirection: "readings given as magnitudes need their direction",
  baselineNeedsDirection: "the sign of the pressures is needed to add the baseline",
  baselineOrder: "must be later than that of the baseline before",
  noTime: "no time is given yet",
  timeOutsideBaselines: "its time is not between those of the two baselines",
  densityUnits: ({ calibration, actual }) =>
    `${shown(calibration, 4)} against ${shown(actual, 4)} for the air at the device: are both in one unit?`,
  highestBelowLowest: "{highest} Pa lies below the lowest, {lowest} Pa",
  outsideCalibration: "{pressure} Pa lies outside the calibrated range of this opening, {lowest} to {highest} Pa",
  tooFewPoints: "two calibration points or more are needed, {count} so far",
  pointTwice: "the reading {reading} stands there twice",
  pointFalls: "the value {value} falls while the reading rises",
  outsideTable: "{reading} lies outside the table, {lowest} to {highest}",
  tooFewRows: "two rows or more are needed, {count} so far",
  timeNotRising: "the time {time} does not rise; past midnight the date is needed",
  timeUnitUnclear: 'rows {interval} apart could be seconds or days: give the "time unit"',
  tooFewReadings: "{least} readings needed for a line and its uncertainty, {count} so far",
  pressuresAlike: "the pressures do not vary: a line needs different pressures",
  weightedPressuresAlike: "under these weights the pressures do not vary: a line needs different pressures",
  pressuresTooNear: "the pressures lie so near together that no coefficient follows",
  flowsAlike: "the flows do not vary: organic correlation has no line for them",
  flowNotRisingForOrganic: "the flow does not rise with pressure: organic correlation has no line for that",
  flowNotRising: "the flow does not rise with the pressure",
  lineNotSettled: "its line does not settle in {steps} steps: the stated uncertainties do not suit these readings",
  noUncertaintyInRow: "row {row} has none",
  techniqueNeeds: 'the technique "{technique}" needs the standard uncertainty of every {quantity}',
  standardUncertainty: "must be 0 or more, standard",
  weightZero: "must be above 0: it is the weight of the reading",
  bothUncertaintiesZero: "the uncertainties of a pressure and its flow cannot both be 0",
  correlation: "a correlation must lie between −1 and 1",
  weightOutOfRange: "too small or too large to weigh the readings by",
  tooFewPressures: "readings at two pressures needed, {count} so far",
  noPressurePair: "readings at two pressures are needed",
  pressuresNotApart:
    "two clearly different pressures are needed, such as 50 and 12.5 Pa (nearest are {above} and {below} Pa)",
  noResult: 'no result yet; one direction alone counts only with one_direction "accept"',
  resultsTooLarge: "the results are too large",
  uncertaintiesTooLarge: "the uncertainties are too large to calculate with",
  limitNeedsSize: 'a limit "{quantity}" needs it',
  limitNeedsDefinition: "a limit on a leakage area needs its definition: they differ by a factor of two",
  definitionFixesPressure: '"{definition}" fixes it at {fixed} Pa',
  ruleNeedsUncertainty: 'the rule "{rule}" needs it',
  ruleTakesUnrounded: 'the rule "{rule}" compares unrounded values; leave decimals blank',
  flowBelowZero: "a flow is 0 or more",
  likelyOutsideRange: ({ likely = "no likely flow", low, high }) =>
    `the likely flow lies between low and high (got ${likely}, ${low} to ${high})`,
  repairsExceedFlow: "they take away more than leaks: {left} m³/h would be left",
  noOpening: "no opening is given yet",
  highestNotAbove: "must be above the lowest, {lowest} Pa",
  modelNeeds: "the model needs it",
  modelKnows: "the model knows 1 to {most}, whole numbers",
  unknownUnit: 'unknown unit "{unit}"',
  otherQuantity: ({ from, to, is, wanted }) => {
    // A name is known with any number of blanks or dots in it.
    const [given, other] = [from, to].map((name) => name.replace(/\s+/g, " ").slice(0, 40));
    return `${given} is a unit of ${is}, ${other} of ${wanted}; choose one of ${listed(unitNames(is))}`;
  },
  belowAbsoluteZero: "below absolute zero",

  cellError: "the cell holds {error}",
  numberNeeded: ({ given }) =>
    `a number is needed, not ${typeof given === "string" ? `the text "${shorten(given)}"` : nameOf(given)}`,
  wordsNeeded: ({ given }) => `words are needed, not ${typeof given === "number" ? given : nameOf(given)}`,
  notOneOf: '"{given}" is not one of: {words}',
  belowZero: "below 0",
  notFinite: "numbers too large or small to calculate with",
  notGiven: "not given yet",
  notGivenNorZero: "not given yet; 0 if it is not to count",
  choiceNeeded: "not given yet; one of {words}",
  cellBlank: "the cell is blank",
  oneCell: "one cell is needed, not {count}",
  oneColumn: (data?: AllRules["oneColumn"]) => oneColumn + (data ? `, not ${data.count}` : ""),
  timeAndPressures: "one column is needed, or two: time and pressure, not {count}",
  exponentColumns: `${oneColumn}, or two: n and its standard uncertainty`,
  rangeColumns: `${oneColumn}, or low and high, or likely, low and high`,
  twoColumns: "two columns are needed, {columns}, not {count}",
  openingColumns: "five columns are needed, name, c, m, lowest and highest fan pressure, not {count}",
  unlikeSize: ({ count, unit, others, of }) =>
    `${count}${unit ? ` ${unit}` : ""} for ${others} ${of}: ranges of unlike size`,
  unlikeRanges: "{count} {unit}, but {other} has {size}: ranges of unlike size",
  beyondExcel: (data) => beyondExcel(data) + "give the rows in use, as A2:A500, not a whole column",
  stationsBeyondExcel: (data) => beyondExcel(data) + 'a longer "shortest station" finds fewer',
  without: "{part} without its {lacks}",
  partBlank: "part of the range is blank",
  noReading: "no reading yet",
  halfPair: ({ row, lacks, isZero }) =>
    `row ${row} has a ${lacks === "flow" ? "pressure" : "flow"} but no ${lacks}${isZero ? ": 0 is no reading" : ""}`,
  fanWithoutFlow: 'row {row} has no flow of fan {fan}; type "off" where it rests',
  oneSign: "one direction, one sign",
  timeOfBaseline: "is not given yet; readings with times need it",
  takesNoUncertainties: 'the technique "{technique}" takes no uncertainties; leave it out',
  cellsInRow: "{count} cells, not {width}",
  columnsUnlisted: 'the log has {width} columns: say what they are under "columns", as "time, pressure, fan pressure"',
  columnTwice: '"{word}" stands twice',
  columnCount: "{count} are listed, the log has {width}",
  timeAndPressure: "time and pressure are needed",
  fanPressureOrFlow: 'fan pressure or flow, not both; call the other one "other"',
  calibrationNeeded: 'a log of fan pressures needs "fan coefficient" and "fan exponent"',
  noStation: "no stretch is steady for long enough; a wider tolerance or a shorter station may find one",
  number: "a number is needed",
  fraction: "a fraction from 0 to 1",
  fractionOfOne: "a fraction from 0 to 1, 0.5 for 50 %",
  smallFraction: "a fraction, 0.01 for 1 %",
  level: "a fraction, 0.95 for 95 %",
  date: "a date as Excel counts days",
  wordList: "a list of words",
  words: "words are needed",
  letters: "letters, one a reading, as AAABBB",
  zeroAndMore: "0 or more",
  beaufort: "a Beaufort number from 0 to 12",
  trials: "from 1 000 to 1 000 000",
  isOneOf: "is one of: {words}",
  numberOrWord: 'a number is needed, or the word "{word}"',
  numberList: "numbers above 0 are needed, with ; between them",
  unknownLabel: ({ label, like }) => {
    if (label === "?") return `the labels are listed ${allLabels}`;
    const unknown = `unknown label "${shorten(label, 40)}"`;
    return like.length === 0
      ? `${unknown}; all are listed ${allLabels}`
      : `${unknown}; did you mean ${either(like)}? The label "?" says where all are listed`;
  },
  labelTwice: 'the label "{label}" stands twice',
  settingNeeded: ({ label, words, by }) =>
    `"${label}" is not given yet${by ? `; ${by} needs it` : words ? `; it is one of: ${listed(words)}` : ""}`,
  seaLevelLikely: ({ read, usual }) =>
    `${shown(read)} Pa does not fit the altitude, where about ${shown(usual)} Pa are usual; is it reduced to sea level?`,
  letterCount: "{letters} letters for {readings} readings: one a reading, excluded ones too",
  lettersTo: "letters from A to {last}",
  fanPressureCount: "{count} values for {openings} openings: give one each, in order A, B, C",
  originUnclear: "0, 0 could be a corner or a blank row: list such a corner first, or leave the row out",
  heightNotAbove: "must be above 0 (got {height}); deduct by a negative area",
  openingLacks: "{what} is not given yet",
  priorNeedsBoth: "a prior needs its mean and its deviation",
  densitiesNeedEachOther: "the density correction needs both densities",
  uncertaintyAlone: "the uncertainty of the other flow alone says nothing",
  customNeeds: "a custom definition needs its {what}",
  definitionFixes: '"{definition}" fixes it at {fixed} (got {value}); use the definition "custom"',
  noAmount: "no component has an amount yet",
  unitNeeded: "the name of a unit is needed",
  unitUnknown: ({ unit, like }) =>
    `unknown unit "${shorten(unit)}"; ${
      like.length > 0 ? `did you mean ${either(like)}?` : "Excel suggests the known ones while you type"
    }`,
  checksNeeded: "the whole table of VALIDITYCHECKS is needed, {columns} columns and {rows} rows for each direction",
  checksOutdated:
    "the table has {older} checks for each direction, as an earlier version gave it or a fixed area cut it off; recalculate VALIDITYCHECKS over {rows} rows",
  checkOpen: ({ check, advice }) => `"${shorten(check)}" cannot be judged yet: ${shorten(advice, 120)}`,
  testOpen: "the checks of the test are still open",
  budgetNeeded: 'the whole table of UNCERTAINTYBUDGET is needed; it has no row "{symbol}"',
  singleRunNeeded: "the table of a single run is needed",
  budgetForNeeded: "a budget for {quantity} is needed",
  noBudgetUncertainty: "no uncertainty can be given for it",
  noBudgetFreedom: 'row "{symbol}" has no degrees of freedom',
  budgetResult: "its result must be above 0",
  budgetTwice: "a table of {direction} with the result {value} is counted twice",
  budgetReadings: 'its row "mc_readings" is not as UNCERTAINTYBUDGET wrote it',
};

/** A part of the data as a sentence shows it. */
function shownPart(part: unknown): string {
  if (Array.isArray(part)) return listed(part as string[]);
  return typeof part === "string" ? shorten(part) : String(part);
}

/** A number as a sentence shows it. */
function shown(value: number, digits = 6): string {
  return String(Number(value.toPrecision(digits)));
}

/** The argument that an error is about, as its parameter is called; undefined where that is a setting. */
export function argumentOf({
  term,
  place: { argument = term.replaceAll(" ", "_"), setting },
}: MethodError): string | undefined {
  return setting === undefined ? argument : undefined;
}

/**
 * The sentence that a person reads of an error, in the cell, at a command and on a page: where it lies as this call names it, what the rule says, and what
 * it got.
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
