import { isDateFormat } from "numfmt";
import { findFilledArea } from "../book/add-in-calls";
import type { Place } from "../book/area";
import type { Inspector } from "../book/inspector";
import { type EnteredReading, readSetting, type EnteredRun } from "../book/tests/entered-runs";
import type { Review } from "./review";

const furthest = 60;
const leastSpread = 1.2;
const mostScatter = 1.02;

/**
 * Flow over c·f^m for each choice of three columns next to the readings that may be the device's c, m and fan pressure f: if they are, the
 * ratio is the same in every row. Returns the mean ratios of the choices for which it is.
 */
export function computeCalibrationRatios(
  view: Inspector,
  readings: readonly EnteredReading[],
  flows: readonly number[],
): number[] {
  const columns = readColumnsBeside(view, readings);
  const sizes = columns.filter((column) => column.every((value) => value > 0));
  const found: number[] = [];
  for (const exponents of sizes.filter((column) => column.every((value) => value >= 0.4 && value <= 0.65))) {
    for (const pressures of sizes.filter((column) => Math.max(...column) > leastSpread * Math.min(...column))) {
      for (const coefficients of sizes) {
        const ratios = flows.map(
          (flow, row) => flow / ((coefficients[row] ?? 0) * (pressures[row] ?? 0) ** (exponents[row] ?? 0)),
        );
        const [least, most] = [Math.min(...ratios), Math.max(...ratios)];
        if (most / least < mostScatter) found.push((least + most) / 2);
      }
    }
  }
  return found;
}

/** The numbers in each column of the sheet in the readings' rows, if every row has one; flows excluded. */
function readColumnsBeside(view: Inspector, readings: readonly EnteredReading[]): number[][] {
  const own = new Set(readings.flatMap(({ flows }) => flows.map(({ column }) => column)));
  const columns: number[][] = [];
  for (let column = 0; column < furthest; column++) {
    if (own.has(column)) continue;
    const numbers = readings.flatMap(({ pressure }) => view.readNumber({ ...pressure, column }) ?? []);
    if (numbers.length === readings.length) columns.push(numbers);
  }
  return columns;
}

/** A method version stated in the file, in a METHODVERSION cell or in the row "method" of a table. */
interface StatedVersion {
  readonly place: Place;
  /** As it was saved. */
  readonly stored: string;
  /** What the cell gives now. */
  readonly computed: string;
}

const versionText = /^\d+\.\d+\.\d+$/;

const statedVersions = new WeakMap<Review, readonly StatedVersion[]>();

/** Every version the workbook states, in order of its calls, found once. Cells holding anything but a version are left to other checks. */
export function findStatedVersions(review: Review): readonly StatedVersion[] {
  let found = statedVersions.get(review);
  if (!found) statedVersions.set(review, (found = collectStatedVersions(review)));
  return found;
}

function collectStatedVersions({ view, calls }: Review): StatedVersion[] {
  const places = calls
    .filter(({ alone }) => alone)
    .flatMap((call): Place[] => {
      if (call.id === "METHODVERSION") return [call.place];
      const { sheet, top, bottom, left, right } = findFilledArea(view, call);
      if (right < left + 2) return [];
      const rows = Array.from({ length: bottom - top + 1 }, (_, index) => top + index);
      const isMethod = (row: number) => view.readText({ sheet, row, column: left + 1 }) === "method";
      return rows.filter(isMethod).map((row) => ({ sheet, row, column: left + 2 }));
    });
  return places.flatMap((place) => {
    const stored = view.findCell(place)?.value;
    if (typeof stored !== "string" || !versionText.test(stored)) return [];
    return [{ place, stored, computed: view.readText(place) }];
  });
}

/** The dates of the book's tests: from the setting, a name, or the label of a date. */
export function testDatesIn(view: Inspector, runs: readonly EnteredRun[]): number[] {
  const named = view.book.names
    .filter(({ name }) => /^(date_?of_?test|test_?date)$/i.test(name))
    .flatMap(({ text }) => {
      const area = view.findNamedArea(text);
      return area ? view.listCells(area) : [];
    });
  const labelled = findTypedDates(view).filter((place) =>
    /\b(test (day|date)|(day|date) of (the )?test)\b/i.test(view.labels.readWordsBefore(place)),
  );
  const set = runs.map((run) => readSetting(view, run, "test date"));
  const numbers = [...[...named, ...labelled].map((place) => view.readNumber(place)), ...set];
  return [...new Set(numbers.filter((value): value is number => typeof value === "number").map(Math.floor))];
}

/** Cells with a typed number shown as a date. */
export function findTypedDates(view: Inspector): Place[] {
  return view.book.sheets.flatMap(({ cells }, sheet) =>
    [...cells.values()].flatMap(({ row, column, value, formula, format }) =>
      typeof value === "number" && !formula && isDateFormat(format) ? [{ sheet, row, column }] : [],
    ),
  );
}

/** What a date is, by the words above or before it. */
export function describeDate(view: Inspector, place: Place): string {
  const above = view.labels.readWordsAbove(place);
  return /valid|expir|calibrat|certificate|due/i.test(above) ? above : view.labels.readWordsBefore(place);
}
