import { put, type Cells } from "../bare";
import { certificate, readGauge, type Direction, type Readings } from "./gauge";

export type Content = Cells[string];
export type Sheets = Record<string, Cells>;

/** A call of the add-in as a file stores it. */
const call = (text: string): string => text.replaceAll("STILLAIR.", "_xldudf_STILLAIR_");
export const formula = (text: string, ref?: string): Content =>
  ref === undefined ? { f: call(text) } : { f: call(text), ref };

/** One figure of a table of results, by its symbol. */
export const figure = (symbol: string, table: string, sheet = ""): string => {
  const [, first = "", top = "", , bottom = ""] = /([A-Z]+)(\d+):([A-Z]+)(\d+)/.exec(table) ?? [];
  const next = (letters: string, by: number) =>
    letters.slice(0, -1) + String.fromCharCode(letters.charCodeAt(letters.length - 1) + by);
  const column = (by: number) => `${sheet}$${next(first, by)}$${top}:$${next(first, by)}$${bottom}`;
  return `INDEX(${column(2)},MATCH("${symbol}",${column(1)},0))`;
};

export interface DirectionSheet {
  readonly direction: Direction;
  readonly readings: Readings;
  readonly settings?: Readonly<Record<string, Content>>;
  /** Flows typed as the gauge shows them, instead of fan pressures and a certificate. */
  readonly typedFlows?: boolean;
}

export const results = "AA2:AG42";
export const checks = "AA44:AI78";

/**
 * One direction on a sheet: readings from row 5 on in B (building), C (fan), D (opening), E (flow), baselines in G and H,
 * settings from J5 on, the table of results in AA2, of checks in AA44. The certificate is on the sheet "Device".
 */
export function directionSheet({ direction, readings, settings = {}, typedFlows = false }: DirectionSheet): Cells {
  const cells: Cells = {
    A1: direction === "depressurization" ? "Test with the fan blowing out" : "Test with the fan blowing in",
  };
  put(cells, "A4", ["no.", "building Pa", "fan Pa", "opening", "flow m³/h"], "across");
  put(cells, "G4", ["zero before", "zero after"], "across");
  readings.pressures.forEach((pressure, index) => {
    const row = index + 5;
    cells[`A${row}`] = index + 1;
    cells[`B${row}`] = pressure;
    if (typedFlows) {
      cells[`E${row}`] = readings.flows[index] ?? 0;
      return;
    }
    cells[`C${row}`] = readings.fan[index] ?? 0;
    cells[`D${row}`] = "ring 1";
    const of = (column: number) => `VLOOKUP(D${row},Device!$A$4:$C$6,${column},FALSE)`;
    cells[`E${row}`] = formula(`STILLAIR.FANFLOW(C${row},${of(2)},${of(3)})`);
  });
  put(cells, "G5", readings.before);
  put(cells, "H5", readings.after);
  const all: Record<string, Content> = {
    volume: 412.6,
    "indoor temperature": 20.5,
    "outdoor temperature": 6,
    "barometric pressure": 100_250,
    "flow basis": "actual at the fan",
    "test date": 46_300,
    "gauge certificate valid until": 46_520,
    "flow device certificate valid until": 46_480,
    ...settings,
  };
  const labels = Object.entries(all);
  labels.forEach(([label, value], index) => put(cells, `J${index + 5}`, [label, value], "across"));
  const last = readings.pressures.length + 4;
  const given = `"${direction}",B5:B${last},E5:E${last},G5:G10,H5:H10,J5:K${labels.length + 4}`;
  cells["AA2"] = formula(`STILLAIR.TESTRESULT(${given})`, results);
  cells["AA44"] = formula(`STILLAIR.VALIDITYCHECKS(${given})`, checks);
  return cells;
}

export function deviceSheet(): Cells {
  const cells: Cells = { A1: "Device", A3: "opening", B3: "c", C3: "m" };
  certificate.forEach((row, index) => put(cells, `A${index + 4}`, row, "across"));
  return cells;
}

/** Rooms with length, width and height, their volumes and the sum in F12. */
export function roomsSheet(rooms: readonly (readonly [string, number, number, number])[]): Cells {
  const cells: Cells = {};
  put(cells, "A1", ["room", "length m", "width m", "height m", "area m²", "volume m³"], "across");
  rooms.forEach(([name, length, width, height], index) => {
    const row = index + 2;
    put(cells, `A${row}`, [name, length, width, height], "across");
    cells[`E${row}`] = { f: `B${row}*C${row}` };
    cells[`F${row}`] = { f: `E${row}*D${row}` };
  });
  cells["A12"] = "sum";
  cells["E12"] = { f: "SUM(E2:E11)" };
  cells["F12"] = { f: "SUM(F2:F11)" };
  return cells;
}

export const rooms = [
  ["Living room", 6.2, 5.4, 2.55],
  ["Kitchen", 4.1, 3.6, 2.55],
  ["Hall", 5.0, 2.1, 2.55],
  ["Bath", 3.2, 2.4, 2.48],
  ["Bedroom", 4.8, 4.1, 2.48],
  ["Child", 4.2, 3.7, 2.48],
  ["Study", 3.9, 3.1, 2.48],
] as const;

export const down = (seed: number, coefficient: number) => readGauge(seed, "depressurization", coefficient);
export const up = (seed: number, coefficient: number) => readGauge(seed, "pressurization", coefficient);
