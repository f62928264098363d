import { onSheet } from "../blocks/address";
import { writeFormLines } from "../blocks/form";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, input, looks, palette, type Side } from "../blocks/style";
import { between, oneOf, text } from "../blocks/validation";
import { logRows, settingsRows, sheets } from "./layout";
import { footer, house, opening } from "./scenario";

const noRule = { border: {} } as const;

/** The export as it came: four columns pasted below their heads. Only the first rows are printed, for the file itself is the record. */
export function logPage(): Page {
  const printed = 60;
  const sheet = new Sheet(sheets.log, [1.5, 12, 15, 12, 13, 3, 20, 30, 20], palette.copper, {
    orientation: "portrait",
    areas: [`B1:I${printed}`],
    pages: 1,
    footer,
  });
  writePageHead(
    sheet,
    letterhead,
    ["B", "I"],
    "The log as it was exported",
    "Paste the export’s columns here, values only.",
  );
  sheet.freeze(5).height(26, 5);
  writeColumnHeads(sheet, 5, "B", ["<time", "building pressure, Pa", "fan pressure, Pa", "^state"]);
  const { first, last } = logRows;
  const log = makeLog();
  // A thousand framed cells would be a wall: the ground alone says that they are typed.
  const look = (format: string, align: Side = "right") => ({ ...input(format, align), ...noRule });
  const looksOf = [look("hh:mm:ss", "left"), look(decimals(1)), look(decimals(1)), look("General", "center")];
  for (let row = first; row <= last; row += 1) {
    const cells = log[row - first];
    "BCDE".split("").forEach((letter, index) => sheet.put(`${letter}${row}`, cells?.[index] ?? null, looksOf[index]!));
  }
  sheet.validate(
    between(
      `B${first}:B${last}`,
      0,
      1e7,
      "Time",
      "Excel’s time or seconds; rising from row to row, one unit throughout.",
    ),
    between(
      `C${first}:C${last}`,
      -500,
      500,
      "Building pressure",
      "Pa, indoors minus outdoors: below 0 while depressurizing.",
    ),
    between(
      `D${first}:D${last}`,
      0,
      1000,
      "Fan pressure",
      "Pa, as the fan’s channel shows it; 0 while the device is covered.",
    ),
    oneOf(`E${first}:E${last}`, ["zero flow", "fan running"], "State", "As marked on the day; blank where it was not."),
  );
  writeLogSettings(sheet);
  const notes = [
    "One row a record, in the order of time. A blank row is skipped; a row that lacks its time or its pressure is an error that names the row.",
    `There is room down to row ${last}. A longer export: insert rows above the last one, and every range grows with them; Excel on the web carries 5 MB a call, some 50 000 rows of four columns.`,
    "The first rows are printed. The exported file is the record: keep it beside the report.",
  ];
  notes.forEach((words, index) => {
    const row = settingsRows.last + 2 + 4 * index;
    sheet.put(`G${row}`, words, looks.note).merge(`G${row}:I${row + 3}`);
  });
  return { sheet, names: {} };
}

const lines = [
  { label: "columns", typed: "time, pressure, fan pressure, state", unit: "from left to right" },
  { label: "time unit", typed: "days", unit: "as Excel counts time" },
  { label: "tolerance", typed: 1.5, format: "0.0", unit: "Pa, about the station" },
  { label: "shortest station", typed: 20, format: "0", unit: "s" },
  { label: "gauge resolution", typed: 0.1, format: "0.0", unit: "Pa" },
  { label: "fan coefficient", typed: opening.coefficient, format: "0.00", unit: "c, m³/h at 1 Pa" },
  { label: "fan exponent", typed: opening.exponent, format: "0.000", unit: "m" },
  { label: "lowest fan pressure", typed: opening.lowest, format: "0", unit: "Pa" },
  { label: "highest fan pressure", typed: opening.highest, format: "0", unit: "Pa" },
];

const cell = (label: string) => `H${settingsRows.first + lines.findIndex((line) => line.label === label)}`;

/** The cell of a setting of the log, for other sheets. */
export const logSettingCell = (label: string): string => onSheet(sheets.log, cell(label));

/** What LOGSTATIONS is told beside the rows: this office's choice of a station, and the certificate of the fan's opening. */
function writeLogSettings(sheet: Sheet): void {
  const { first, last } = settingsRows;
  writeHeading(sheet, first - 2, ["G", "I"], "How stations are found");
  writeColumnHeads(sheet, first - 1, "G", ["<label", "value", "<<unit"]);
  writeFormLines(sheet, first, { label: "G", value: "H", unit: "I" }, lines);
  // The certificate of the fan is the firm's.
  sheet.keep(`${cell("columns")}:${cell("gauge resolution")}`);
  sheet.validate(
    text(
      cell("columns"),
      "Columns",
      "What the columns are, from left to right: time, pressure, fan pressure or flow, state, other.",
    ),
    oneOf(cell("time unit"), ["days", "seconds"], "Time unit", "Excel’s own times are days."),
    between(
      `${cell("tolerance")}:H${last}`,
      0,
      2000,
      "Setting",
      "Tolerance, shortest station and resolution are this office’s choice; the fan’s figures are its certificate’s.",
    ),
  );
}

/** A row of the export: when, building pressure and fan pressure in Pa, what the tester marked. */
type LogRow = readonly [time: number, pressure: number, fanPressure: number, state: "zero flow" | "fan running"];

const secondsPerDay = 86_400;
const start = house.day + (10 * 3600 + 4 * 60) / secondsPerDay;

/** Invented house: q = 29.4·Δp^0.64 in m³/h indicated, a little more when blowing in. */
const leakage = { depressurization: 29.4, pressurization: 30.9, exponent: 0.64 } as const;

const stationSeconds = 42;
const rampSeconds = 7;
const zeroFlowSeconds = 60;

/** Noise that is the same at each making: a gust lasts some seconds, so neighbouring rows are alike. */
function gusts(): () => number {
  let state = 20_261;
  let gust = 0;
  const draw = () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647 - 0.5;
  return () => (gust = 0.75 * gust + 0.5 * draw());
}

/** One row a second: covered, eight stations of depressurization, covered, eight of pressurization, covered. */
function makeLog(): readonly LogRow[] {
  const rows: LogRow[] = [];
  const gust = gusts();
  const rounded = (value: number) => Math.round(10 * value) / 10;
  const write = (pressure: number, fanPressure: number, state: LogRow[3]) => {
    const time = start + rows.length / secondsPerDay;
    rows.push([time, rounded(pressure), rounded(fanPressure), state]);
  };
  const zeroFlow = (baseline: number) => {
    for (let second = 0; second < zeroFlowSeconds; second += 1) write(baseline + gust(), 0, "zero flow");
  };
  const run = (sign: number, coefficient: number, levels: readonly number[]) => {
    let from = 0;
    for (const level of levels) {
      for (let second = 1; second <= rampSeconds + stationSeconds; second += 1) {
        const now = second < rampSeconds ? from + ((level - from) * second) / rampSeconds : level;
        const flow = coefficient * Math.pow(Math.abs(now), leakage.exponent) * (1 + 0.01 * gust());
        const fanPressure = Math.pow(flow / opening.coefficient, 1 / opening.exponent);
        write(sign * now + baselines.between + 0.6 * gust(), fanPressure, "fan running");
      }
      from = level;
    }
  };
  zeroFlow(baselines.before);
  run(-1, leakage.depressurization, [60, 54, 47, 41, 35, 28, 21, 15]);
  zeroFlow(baselines.between);
  run(1, leakage.pressurization, [61, 55, 48, 42, 34, 27, 20, 14]);
  zeroFlow(baselines.after);
  return rows;
}

const baselines = { before: -1.6, between: -1.4, after: -1.2 } as const;
