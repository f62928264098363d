import type { AddInRegistry } from "../formula/calls/add-in";
import { type CellValue, ErrorValue } from "../model";
import { type Argument, type Call, textOf } from "./add-in-calls";
import { type Place, placesIn, type SheetArea } from "./area";
import type { Inspector } from "./inspector";

type Direction = "depressurization" | "pressurization";

/** One reading of a test with the cells that hold it. */
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

/** One direction of a test, as a call of a whole-test function has it. */
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
  /** Those with a pressure and a flow, in their order. */
  readonly readings: readonly ReviewedReading[];
}

/** Functions that take a whole test with the same first seven arguments, the one whose result is used first. */
const wholeTestFunctions = ["TESTRESULT", "RESULTCARD", "UNCERTAINTYBUDGET", "VALIDITYCHECKS"];

/** Every test in the book; a test that several functions take is one. */
export function findWholeTests(view: Inspector, calls: readonly Call[]): WholeTest[] {
  return callsByTest(view, calls).flatMap(([first]) => first ?? []);
}

/** The calls that take a whole test, those of one series of readings together. */
export function callsByTest(view: Inspector, calls: readonly Call[]): WholeTest[][] {
  const found = new Map<string, WholeTest[]>();
  for (const id of wholeTestFunctions) {
    for (const call of calls) {
      const test = call.id === id ? wholeTestOf(view, call) : undefined;
      if (!test) continue;
      // The same readings with others of them left out are another test.
      const left = test.readings.map(({ counts }) => (counts ? "+" : "-")).join("");
      const key = `${test.direction} ${view.addressOfArea(test.pressures)} ${view.addressOfArea(test.flows)} ${left}`;
      found.set(key, [...(found.get(key) ?? []), test]);
    }
  }
  return [...found.values()];
}

function wholeTestOf(view: Inspector, call: Call): WholeTest | undefined {
  const [way, pressures, flows, before, after, settings, include] = call.arguments;
  const direction = textOf(view, way).replace(/isation$/, "ization");
  if (direction !== "depressurization" && direction !== "pressurization") return undefined;
  if (!pressures?.area || !flows?.area) return undefined;
  return {
    call,
    direction,
    pressures: pressures.area,
    flows: flows.area,
    before: before?.area,
    after: after?.area,
    settings: settingsOf(view, settings),
    settingsArea: settings?.area,
    include: include?.area,
    readings: readingsOf(view, pressures.area, flows.area, include?.area),
  };
}

function settingsOf(view: Inspector, argument: Argument | undefined): Map<string, ReviewedSetting> {
  const settings = new Map<string, ReviewedSetting>();
  for (const area of argument?.areas ?? []) {
    if (area.right - area.left !== 1) continue;
    for (let row = area.top; row <= area.bottom; row++) {
      const label = { sheet: area.sheet, row, column: area.left };
      const name = view.text(label).toLowerCase();
      if (name !== "") settings.set(name, { label, place: { sheet: area.sheet, row, column: area.right } });
    }
  }
  return settings;
}

/** The places of a column, or of a row, one an entry; a block gives its rows. */
function entries(area: SheetArea): Place[][] {
  const across = area.top === area.bottom && area.right > area.left;
  if (across) return [...placesIn(area)].map((place) => [place]);
  const rows: Place[][] = [];
  for (let row = area.top; row <= area.bottom; row++) rows.push([...placesIn({ ...area, top: row, bottom: row })]);
  return rows;
}

function readingsOf(
  view: Inspector,
  pressures: SheetArea,
  flows: SheetArea,
  include: SheetArea | undefined,
): ReviewedReading[] {
  const [ofPressure, ofFlow] = [entries(pressures), entries(flows)];
  const ofInclude = include ? entries(include) : [];
  return ofPressure.flatMap((cells, index): ReviewedReading[] => {
    // Two columns are time and pressure.
    const pressure = cells.at(-1);
    const fans = ofFlow[index] ?? [];
    if (!pressure || isEmpty(view.value(pressure))) return [];
    const mark = ofInclude[index]?.[0];
    return [{ pressure, flows: fans, include: mark, counts: !mark || !isNo(view, mark) }];
  });
}

/** The word, or FALSE as an unticked box gives it. */
const isNo = (view: Inspector, mark: Place): boolean =>
  view.value(mark) === false || view.text(mark).toLowerCase() === "no";

const isEmpty = (value: CellValue): boolean => value === null || value === "";

/** The flow of a reading, its fans added; undefined where one is no number. */
export function flowOf(view: Inspector, { flows }: ReviewedReading): number | undefined {
  let sum = 0;
  for (const place of flows) {
    const value = view.value(place);
    if (typeof value === "number") sum += value;
    else if (flows.length === 1 || (value !== null && value !== "" && value !== "off")) return undefined;
  }
  return sum;
}

/** A setting's value as it stands, undefined where the test has no such label. */
export function settingOf(view: Inspector, test: WholeTest, label: string): CellValue | undefined {
  const setting = test.settings.get(label);
  return setting ? view.value(setting.place) : undefined;
}

/** A setting that is a word, as the functions take it: in any letter case. "" where there is none. */
export function wordOf(view: Inspector, test: WholeTest, label: string): string {
  const value = settingOf(view, test, label);
  return typeof value === "string" ? value.trim().toLowerCase() : "";
}

/** What a function of the add-in gives for the arguments of a test; undefined where it gives an error. */
export function askFunction(
  view: Inspector,
  addIn: AddInRegistry,
  id: string,
  test: WholeTest,
  changed: { readonly before?: unknown[][]; readonly after?: unknown[][] } = {},
): unknown[][] | undefined {
  const compute = addIn.get(id)?.compute;
  const range = (area: SheetArea | undefined): unknown[][] | null => (area ? valuesOf(view, area) : null);
  try {
    const answer = compute?.(
      test.direction,
      range(test.pressures),
      range(test.flows),
      changed.before ?? range(test.before),
      changed.after ?? range(test.after),
      range(test.settingsArea),
      range(test.include),
    );
    return Array.isArray(answer) ? (answer as unknown[][]) : undefined;
  } catch {
    // An error of the function stands in its own cell; here there is just nothing to judge by.
    return undefined;
  }
}

/** An area's values as an add-in function gets them; blanks stay blank. */
export function valuesOf(view: Inspector, area: SheetArea): unknown[][] {
  return entriesByRow(area).map((row) =>
    row.map((place) => {
      const value = view.value(place);
      return value instanceof ErrorValue ? { type: "Error", basicType: "Error", basicValue: value.code } : value;
    }),
  );
}

function entriesByRow(area: SheetArea): Place[][] {
  const rows: Place[][] = [];
  for (let row = area.top; row <= area.bottom; row++) rows.push([...placesIn({ ...area, top: row, bottom: row })]);
  return rows;
}

/** A row of a whole-test table by its symbol: value, lower and upper limit. */
export function rowOfSymbol(table: readonly unknown[][] | undefined, symbol: string): number | undefined {
  const value = table?.find((row) => row[1] === symbol)?.[2];
  return typeof value === "number" ? value : undefined;
}
