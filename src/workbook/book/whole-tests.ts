import type { AddInRegistry } from "../formula/calls/add-in";
import { type CellValue, ErrorValue } from "../model";
import { type Argument, type Call, readText } from "./add-in-calls";
import { type Place, listPlaces, type SheetArea } from "./area";
import type { Inspector } from "./inspector";

type Direction = "depressurization" | "pressurization";

/** One reading of a test with its cells. */
export interface ReviewedReading {
  readonly pressure: Place;
  readonly flows: readonly Place[];
  readonly include: Place | undefined;
  readonly counts: boolean;
}

interface ReviewedSetting {
  readonly label: Place;
  readonly place: Place;
}

/** One direction of a test, from a call of a whole-test function. */
export interface WholeTest {
  readonly call: Call;
  readonly direction: Direction;
  readonly pressures: SheetArea;
  readonly flows: SheetArea;
  readonly before: SheetArea | undefined;
  readonly after: SheetArea | undefined;
  readonly settings: ReadonlyMap<string, ReviewedSetting>;
  readonly settingsArea: SheetArea | undefined;
  readonly include: SheetArea | undefined;
  /** Those with a pressure and a flow, in order. */
  readonly readings: readonly ReviewedReading[];
}

/** Functions that take a whole test with the same first seven arguments, the one whose result is used first. */
const wholeTestFunctions = ["TESTRESULT", "RESULTCARD", "UNCERTAINTYBUDGET", "VALIDITYCHECKS"];

/** Every test in the book; a test used by several functions counts once. */
export function findWholeTests(view: Inspector, calls: readonly Call[]): WholeTest[] {
  return groupCallsByTest(view, calls).flatMap(([first]) => first ?? []);
}

/** The calls that take a whole test, grouped by series of readings. */
export function groupCallsByTest(view: Inspector, calls: readonly Call[]): WholeTest[][] {
  const found = new Map<string, WholeTest[]>();
  for (const id of wholeTestFunctions) {
    for (const call of calls) {
      const test = call.id === id ? readWholeTest(view, call) : undefined;
      if (!test) continue;
      // The same readings with different exclusions are another test.
      const left = test.readings.map(({ counts }) => (counts ? "+" : "-")).join("");
      const key = `${test.direction} ${view.formatArea(test.pressures)} ${view.formatArea(test.flows)} ${left}`;
      found.set(key, [...(found.get(key) ?? []), test]);
    }
  }
  return [...found.values()];
}

function readWholeTest(view: Inspector, call: Call): WholeTest | undefined {
  const [way, pressures, flows, before, after, settings, include] = call.arguments;
  const direction = readText(view, way).replace(/isation$/, "ization");
  if (direction !== "depressurization" && direction !== "pressurization") return undefined;
  if (!pressures?.area || !flows?.area) return undefined;
  return {
    call,
    direction,
    pressures: pressures.area,
    flows: flows.area,
    before: before?.area,
    after: after?.area,
    settings: readSettings(view, settings),
    settingsArea: settings?.area,
    include: include?.area,
    readings: readReadings(view, pressures.area, flows.area, include?.area),
  };
}

function readSettings(view: Inspector, argument: Argument | undefined): Map<string, ReviewedSetting> {
  const settings = new Map<string, ReviewedSetting>();
  for (const area of argument?.areas ?? []) {
    if (area.right - area.left !== 1) continue;
    for (let row = area.top; row <= area.bottom; row++) {
      const label = { sheet: area.sheet, row, column: area.left };
      const name = view.readText(label).toLowerCase();
      if (name !== "") settings.set(name, { label, place: { sheet: area.sheet, row, column: area.right } });
    }
  }
  return settings;
}

/** The places of a column, or of a row, one per entry; a block gives its rows. */
function listEntries(area: SheetArea): Place[][] {
  const across = area.top === area.bottom && area.right > area.left;
  if (across) return [...listPlaces(area)].map((place) => [place]);
  const rows: Place[][] = [];
  for (let row = area.top; row <= area.bottom; row++) rows.push([...listPlaces({ ...area, top: row, bottom: row })]);
  return rows;
}

function readReadings(
  view: Inspector,
  pressures: SheetArea,
  flows: SheetArea,
  include: SheetArea | undefined,
): ReviewedReading[] {
  const [ofPressure, ofFlow] = [listEntries(pressures), listEntries(flows)];
  const ofInclude = include ? listEntries(include) : [];
  return ofPressure.flatMap((cells, index): ReviewedReading[] => {
    // Two columns are time and pressure.
    const pressure = cells.at(-1);
    const fans = ofFlow[index] ?? [];
    if (!pressure || isEmpty(view.readValue(pressure))) return [];
    const mark = ofInclude[index]?.[0];
    return [{ pressure, flows: fans, include: mark, counts: !mark || !isNo(view, mark) }];
  });
}

/** The word, or FALSE from an unticked box. */
const isNo = (view: Inspector, mark: Place): boolean =>
  view.readValue(mark) === false || view.readText(mark).toLowerCase() === "no";

const isEmpty = (value: CellValue): boolean => value === null || value === "";

/** The flow of a reading, summed over its fans; undefined if any is not a number. */
export function sumFlow(view: Inspector, { flows }: ReviewedReading): number | undefined {
  let sum = 0;
  for (const place of flows) {
    const value = view.readValue(place);
    if (typeof value === "number") sum += value;
    else if (flows.length === 1 || (value !== null && value !== "" && value !== "off")) return undefined;
  }
  return sum;
}

/** A setting's value as given; undefined if the test has no such label. */
export function readSetting(view: Inspector, test: WholeTest, label: string): CellValue | undefined {
  const setting = test.settings.get(label);
  return setting ? view.readValue(setting.place) : undefined;
}

/** A setting that is a word, case-insensitive as in the functions; "" if there is none. */
export function readWord(view: Inspector, test: WholeTest, label: string): string {
  const value = readSetting(view, test, label);
  return typeof value === "string" ? value.trim().toLowerCase() : "";
}

/** What an add-in function returns for the arguments of a test; undefined if it returns an error. */
export function askFunction(
  view: Inspector,
  addIn: AddInRegistry,
  id: string,
  test: WholeTest,
  changed: { readonly before?: unknown[][]; readonly after?: unknown[][] } = {},
): unknown[][] | undefined {
  const compute = addIn.get(id)?.compute;
  const readRange = (area: SheetArea | undefined): unknown[][] | null => (area ? readValues(view, area) : null);
  try {
    const answer = compute?.(
      test.direction,
      readRange(test.pressures),
      readRange(test.flows),
      changed.before ?? readRange(test.before),
      changed.after ?? readRange(test.after),
      readRange(test.settingsArea),
      readRange(test.include),
    );
    return Array.isArray(answer) ? (answer as unknown[][]) : undefined;
  } catch {
    // The function's error shows in its own cell; here there is simply nothing to judge.
    return undefined;
  }
}

/** An area's values as passed to an add-in function; blanks stay blank. */
export function readValues(view: Inspector, area: SheetArea): unknown[][] {
  return listEntriesByRow(area).map((row) =>
    row.map((place) => {
      const value = view.readValue(place);
      return value instanceof ErrorValue ? { type: "Error", basicType: "Error", basicValue: value.code } : value;
    }),
  );
}

function listEntriesByRow(area: SheetArea): Place[][] {
  const rows: Place[][] = [];
  for (let row = area.top; row <= area.bottom; row++) rows.push([...listPlaces({ ...area, top: row, bottom: row })]);
  return rows;
}

/** A row of a whole-test table by its symbol: value, lower and upper limit. */
export function findRowOfSymbol(table: readonly unknown[][] | undefined, symbol: string): number | undefined {
  const value = table?.find((row) => row[1] === symbol)?.[2];
  return typeof value === "number" ? value : undefined;
}
