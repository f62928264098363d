import { type Details, MethodError, type Place, type Rules } from "../../core/index";

interface Given {
  readonly given: unknown;
}

interface Count {
  readonly count: number;
}

/** Two ranges that should match; a range of several columns has its size as "5 × 2". */
interface UnlikeSize {
  readonly count: number | string;
  readonly others: number | string;
  readonly of: string;
}

/** The rules of cells, ranges and settings by their codes, each with what it knows of the input that breaks it. */
export interface CellRules {
  // Of one cell.
  cellError: { readonly error: string };
  numberNeeded: Given;
  wordsNeeded: Given;
  notOneOf: Given & { readonly words: readonly string[] };
  notGivenNorZero: undefined;
  choiceNeeded: { readonly words: readonly string[] };
  // Of a range.
  oneCell: Count;
  oneColumn: { readonly got: number };
  columns: { readonly columns: string; readonly got: number };
  unlikeSize: UnlikeSize;
  beyondExcel: { readonly cells: number; readonly most: number };
  stationsBeyondExcel: { readonly cells: number; readonly most: number };
  /** One part of a row without the other. */
  without: { readonly part: string; readonly lacks: string };
  partBlank: undefined;
  // Readings.
  halfPair: { readonly row: number; readonly lacks: "pressure" | "flow"; readonly isZero: boolean };
  fanWithoutFlow: { readonly row: number; readonly fan: number };
  takesNoUncertainties: { readonly technique: string };
  // A log.
  cellsInRow: Count & { readonly width: number };
  columnsUnlisted: { readonly width: number };
  timeAndPressure: undefined;
  fanPressureOrFlow: undefined;
  calibrationNeeded: undefined;
  noStation: undefined;
  // Settings.
  date: undefined;
  letters: undefined;
  beaufort: undefined;
  trials: undefined;
  numberOrWord: { readonly word: string };
  numberList: undefined;
  unknownLabel: { readonly label: string; readonly like: readonly string[] };
  settingNeeded: { readonly label: string; readonly words?: readonly string[] | undefined; readonly by?: string };
  seaLevelLikely: { readonly read: number; readonly usual: number };
  lettersTo: { readonly last: string };
  // Single functions.
  originUnclear: undefined;
  checksNeeded: { readonly columns: number; readonly rows: number };
  checksOutdated: { readonly older: number; readonly rows: number };
  checkOpen: { readonly check: string; readonly advice: string };
  directionOpen: { readonly direction: string };
  testOpen: undefined;
  budgetNeeded: { readonly symbol: string };
  budgetForNeeded: { readonly wanted: string; readonly got: string };
  noBudgetUncertainty: { readonly got: string };
  noBudgetFreedom: { readonly symbol: string };
  budgetTwice: { readonly direction: string; readonly value: number };
  budgetOpenings: { readonly symbol: string };
  budgetReadings: undefined;
}

/** Every rule that an error can carry. */
export type AllRules = Rules & CellRules;

type Refusal = <Code extends keyof AllRules>(
  argument: string,
  code: Code,
  ...details: Details<AllRules[Code]>
) => MethodError;

function refused(
  kind: "invalid" | "missing",
  argument: string,
  code: string,
  data?: object,
  row?: number,
): MethodError {
  return new MethodError(kind, argument, code, data, { argument, row });
}

/** An argument that breaks a rule. */
export const invalid: Refusal = (argument, code, ...[data, row]) => refused("invalid", argument, code, data, row);

/** An argument that is not there yet. */
export const missing: Refusal = (argument, code, ...[data, row]) => refused("missing", argument, code, data, row);

/** A setting that breaks a rule. */
export function invalidSetting<Code extends keyof AllRules>(
  setting: string,
  code: Code,
  ...[data, row]: Details<AllRules[Code]>
): MethodError {
  return new MethodError("invalid", setting, code, data, { setting, row });
}

/** The data of an error, for the evaluator and its commands. */
export interface Problem extends Place {
  readonly kind: MethodError["kind"];
  readonly code: string;
  readonly term: string;
  readonly data: object | undefined;
}

export function problemOf({ kind, code, term, data, place }: MethodError): Problem {
  return { kind, code, term, data, ...place };
}
