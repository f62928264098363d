import type { AddInRegistry } from "../../formula/calls/add-in";
import { type CellValue, ErrorValue } from "../../model";
import { type Argument, type Call, readText } from "../add-in-calls";
import { type Place, listPlaces, type SheetArea } from "../area";
import type { Inspector } from "../inspector";

type Direction = "depressurization" | "pressurization";

/** One reading of a run with its cells. */
export interface EnteredReading {
  readonly pressure: Place;
  readonly flows: readonly Place[];
  readonly include: Place | undefined;
  readonly counts: boolean;
}

interface EnteredSetting {
  readonly label: Place;
  readonly place: Place;
}

/** One run of a test as entered: the cells that a call of a whole-test function takes it from. */
export interface EnteredRun {
  readonly call: Call;
  readonly direction: Direction;
  readonly pressures: SheetArea;
  readonly flows: SheetArea;
  readonly before: SheetArea | undefined;
  readonly after: SheetArea | undefined;
  readonly settings: ReadonlyMap<string, EnteredSetting>;
  readonly settingsArea: SheetArea | undefined;
  readonly include: SheetArea | undefined;
  /** Those with a pressure and a flow, in order. */
  readonly readings: readonly EnteredReading[];
}

/** Functions that take a whole test with the same first seven arguments, the one whose result is used first. */
const wholeTestFunctions = ["TESTRESULT", "RESULTCARD", "UNCERTAINTYBUDGET", "VALIDITYCHECKS"];

/** The calls that take a run, grouped by its series of readings. */
export function groupCallsByRun(view: Inspector, calls: readonly Call[]): EnteredRun[][] {
  const found = new Map<string, EnteredRun[]>();
  for (const id of wholeTestFunctions) {
    for (const call of calls) {
      const run = call.id === id ? readEnteredRun(view, call) : undefined;
      if (!run) continue;
      // The same readings with different exclusions are another run.
      const left = run.readings.map(({ counts }) => (counts ? "+" : "-")).join("");
      const key = `${run.direction} ${view.formatArea(run.pressures)} ${view.formatArea(run.flows)} ${left}`;
      found.set(key, [...(found.get(key) ?? []), run]);
    }
  }
  return [...found.values()];
}

function readEnteredRun(view: Inspector, call: Call): EnteredRun | undefined {
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

function readSettings(view: Inspector, argument: Argument | undefined): Map<string, EnteredSetting> {
  const settings = new Map<string, EnteredSetting>();
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

/** Whether readings run across rather than down. */
export const runsAcross = ({ top, bottom, left, right }: SheetArea): boolean => top === bottom && right > left;

/** The places of a column, or of a row, one per entry; a block gives its rows. */
const listEntries = (area: SheetArea): Place[][] =>
  runsAcross(area) ? [...listPlaces(area)].map((place) => [place]) : listRows(area);

function listRows(area: SheetArea): Place[][] {
  const rows: Place[][] = [];
  for (let row = area.top; row <= area.bottom; row++) rows.push([...listPlaces({ ...area, top: row, bottom: row })]);
  return rows;
}

function readReadings(
  view: Inspector,
  pressures: SheetArea,
  flows: SheetArea,
  include: SheetArea | undefined,
): EnteredReading[] {
  const [ofPressure, ofFlow] = [listEntries(pressures), listEntries(flows)];
  const ofInclude = include ? listEntries(include) : [];
  return ofPressure.flatMap((cells, index): EnteredReading[] => {
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
export function sumFlow(view: Inspector, { flows }: EnteredReading): number | undefined {
  let sum = 0;
  for (const place of flows) {
    const value = view.readValue(place);
    if (typeof value === "number") sum += value;
    else if (flows.length === 1 || (value !== null && value !== "" && value !== "off")) return undefined;
  }
  return sum;
}

/** A setting's value as given; undefined if the run has no such label. */
export function readSetting(view: Inspector, run: EnteredRun, label: string): CellValue | undefined {
  const setting = run.settings.get(label);
  return setting ? view.readValue(setting.place) : undefined;
}

/** A setting that is a word, case-insensitive as in the functions; "" if there is none. */
export function readWord(view: Inspector, run: EnteredRun, label: string): string {
  const value = readSetting(view, run, label);
  return typeof value === "string" ? value.trim().toLowerCase() : "";
}

/** What an add-in function returns for the arguments of a run; undefined if it returns an error. */
export function askFunction(
  view: Inspector,
  addIn: AddInRegistry,
  id: string,
  run: EnteredRun,
  changed: { readonly before?: unknown[][]; readonly after?: unknown[][] } = {},
): unknown[][] | undefined {
  const compute = addIn.get(id)?.compute;
  const readRange = (area: SheetArea | undefined): unknown[][] | null => (area ? readValues(view, area) : null);
  try {
    const answer = compute?.(
      run.direction,
      readRange(run.pressures),
      readRange(run.flows),
      changed.before ?? readRange(run.before),
      changed.after ?? readRange(run.after),
      readRange(run.settingsArea),
      readRange(run.include),
    );
    return Array.isArray(answer) ? (answer as unknown[][]) : undefined;
  } catch {
    // The function's error shows in its own cell; here there is simply nothing to judge.
    return undefined;
  }
}

/** An area's values as passed to an add-in function; blanks stay blank. */
export function readValues(view: Inspector, area: SheetArea): unknown[][] {
  return listRows(area).map((row) =>
    row.map((place) => {
      const value = view.readValue(place);
      return value instanceof ErrorValue ? { type: "Error", basicType: "Error", basicValue: value.code } : value;
    }),
  );
}

/** A result of a run by its symbol, in the unit of its sheet; undefined if it has none. */
export function readResult(
  { view, addIn }: { readonly view: Inspector; readonly addIn: AddInRegistry },
  run: EnteredRun,
  symbol: string,
  changed?: Parameters<typeof askFunction>[4],
): number | undefined {
  const known = changed ? undefined : resultTables.get(run);
  const table = known ?? askFunction(view, addIn, "TESTRESULT", run, changed) ?? [];
  if (!changed) resultTables.set(run, table);
  return findRowOfSymbol(table, symbol);
}

/** The results of runs as entered: a run belongs to one evaluated book, whose checks ask for one symbol after another. */
const resultTables = new WeakMap<EnteredRun, readonly unknown[][]>();

/** A value of a whole-test table by its symbol. */
function findRowOfSymbol(table: readonly unknown[][], symbol: string): number | undefined {
  const value = table.find((row) => row[1] === symbol)?.[2];
  return typeof value === "number" ? value : undefined;
}
