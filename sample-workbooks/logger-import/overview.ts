import { call, quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { lineSeries } from "../blocks/chart";
import { columnHeads, pageHead, section } from "../blocks/heading";
import { legend } from "../blocks/legend";
import { letterhead } from "../blocks/letterhead";
import { linearChart } from "../blocks/linear-chart";
import { formLines } from "../blocks/lines";
import { palette } from "../blocks/palette";
import { Sheet } from "../blocks/sheet";
import { dateFormat, decimals, fromAddIn, input, looks, native, style } from "../blocks/style";
import { between, day, text } from "../blocks/validation";
import { firm, trade } from "../final-test/scenario";
import { resultOf } from "./direction";
import { directions, logRows, sheets, stationColumns, stationRows, type Page } from "./places";
import { conditions, footer, house, limit, remark } from "./scenario";

const rows = { facts: 6, settings: 14, results: 14, chart: 29, legend: 57 } as const;
const lastRow = rows.legend + 4;

/** One page: the house, what the test needs beside the log, the results, the log as a curve. */
export function overviewPage(): Page {
  const sheet = new Sheet(sheets.overview, [1.5, 23, 17, 12, 2, 30, 13, 13], palette.copper, {
    orientation: "portrait",
    areas: [`B1:H${lastRow}`],
    pages: 1,
    footer,
  });
  const lead =
    "A logger’s rows reduced to stations, and the stations to a test by ISO 9972, each step on its own sheet.";
  pageHead(sheet, letterhead, ["B", "H"], "Airtightness test from a logger’s file", lead);
  sheet.heightOf(14.5, 5, lastRow);
  facts(sheet);
  const settings = testSettings(sheet);
  results(sheet);
  chart(sheet);
  howToRead(sheet);
  const cell = (place: string) => onSheet(sheets.overview, place);
  return {
    sheet,
    names: {
      Summary: cell(`F${rows.results + 1}:H${rows.results + 11}`),
      TestSettings: cell(settings),
      House: cell(`C${rows.facts}`),
      Firm: cell(`G${rows.facts}`),
      TradeLine: cell(`G${rows.facts + 1}`),
      Remark: cell(`G${rows.facts + 2}`),
    },
  };
}

function facts(sheet: Sheet): void {
  section(sheet, rows.facts - 1, ["B", "D"], "House");
  section(sheet, rows.facts - 1, ["F", "H"], "Test");
  const left = [
    ["House", house.name],
    ["Address", house.address],
    ["Client", house.client],
    ["Tested by", house.tester],
  ] as const;
  const right = [
    ["Firm", firm],
    ["Trade", trade],
    ["Remark on every sheet", remark],
    ["Exported file", house.file],
    ["Day of the test", house.day],
  ] as const;
  left.forEach(([label, value], index) => {
    const row = rows.facts + index;
    sheet.put(`B${row}`, label, looks.label).put(`C${row}`, value, style({ shrink: true }, input(undefined, "left")));
    sheet.merge(`C${row}:D${row}`);
  });
  right.forEach(([label, value], index) => {
    const row = rows.facts + index;
    const look = input(typeof value === "number" ? dateFormat : undefined, "left");
    sheet
      .put(`F${row}`, label, looks.label)
      .put(`G${row}`, value, style({ shrink: true }, look))
      .merge(`G${row}:H${row}`);
  });
  const dayRow = rows.facts + right.length - 1;
  sheet.validate(
    text(`C${rows.facts}:D${rows.facts + left.length - 1}`, "House", "The house stands at the top of every sheet."),
    text(
      `G${rows.facts}:H${dayRow - 1}`,
      "Test",
      "Firm, trade and remark stand on every sheet; an empty remark on none.",
    ),
    day(`G${dayRow}:H${dayRow}`, "Day of the test", "For the report."),
  );
}

/** Label and value as the whole test reads them; what is typed here is checked, the rest describes this template. */
function testSettings(sheet: Sheet): string {
  const first = rows.settings;
  section(sheet, first - 1, ["B", "D"], "What the test needs beside the log");
  const typed = [
    { label: "volume", typed: conditions.volume, format: "0.0", unit: "m³" },
    { label: "envelope area", typed: conditions.envelopeArea, format: "0.0", unit: "m²" },
    { label: "indoor temperature", typed: conditions.indoorTemperature, format: decimals(1), unit: "°C" },
    { label: "outdoor temperature", typed: conditions.outdoorTemperature, format: decimals(1), unit: "°C" },
    { label: "barometric pressure", typed: conditions.barometer, format: "0", unit: "Pa" },
    { label: "indoor humidity", typed: conditions.indoorHumidity, format: "0.00", unit: "a fraction" },
    { label: "outdoor humidity", typed: conditions.outdoorHumidity, format: "0.00", unit: "a fraction" },
    { label: "calibration density", typed: conditions.calibrationDensity, format: "0.0000", unit: "kg/m³" },
  ];
  const fixed = [
    ["flow basis", "indicated at calibration density"],
    ["pressure sign", "indoors minus outdoors"],
    ["standard", "ISO 9972"],
    ["technique", "ordinary"],
  ] as const;
  formLines(sheet, first, { label: "B", value: "C", unit: "D" }, typed);
  fixed.forEach(([label, value], index) => {
    const row = first + typed.length + index;
    sheet.put(`B${row}`, label, looks.label).put(`C${row}`, value, style({ shrink: true }, native(undefined, "left")));
    sheet.paint(`D${row}`, looks.unit);
  });
  sheet.validate(
    between(`C${first}:C${first + 1}`, 1, 1e6, "Size", "Internal volume and envelope area by ISO 9972."),
    between(`C${first + 2}:C${first + 3}`, -40, 50, "Temperature", "Mean over the test, °C."),
    between(`C${first + 4}`, 50_000, 110_000, "Barometer", "Read at the house, Pa; 1009 hPa is 100 900 Pa."),
    between(`C${first + 5}:C${first + 6}`, 0, 1, "Relative humidity", "A fraction: 0.5 for 50 %."),
    between(`C${first + 7}`, 0.9, 1.5, "Calibration density", "Density of air that the fan’s certificate is for."),
  );
  return `B${first}:C${first + typed.length + fixed.length - 1}`;
}

function results(sheet: Sheet): void {
  const at = rows.results;
  section(sheet, at - 1, ["F", "H"], "Results");
  const stations = (role: string) =>
    `COUNTIF(${onSheet(sheets.stations, `${stationColumns.role}${stationRows.first}:${stationColumns.role}${stationRows.last}`)},"${role}")`;
  columnHeads(sheet, at, "F", ["<", "value", "<<unit"]);
  const [down, up] = directions.map((direction) => resultOf(direction, "n50")) as [string, string];
  const lines: readonly (readonly [label: string, formula: string, format: string, unit: string])[] = [
    ["Rows of the log", `COUNT(${onSheet(sheets.log, `B${logRows.first}:B${logRows.last}`)})`, "0", ""],
    ["Covered stretches (baseline)", stations("baseline"), "0", ""],
    ["Stations, depressurization", stations("depressurization"), "0", ""],
    ["Stations, pressurization", stations("pressurization"), "0", ""],
    ["Flow exponent n, depressurization", resultOf("depressurization", "n"), "0.000", ""],
    ["Flow exponent n, pressurization", resultOf("pressurization", "n"), "0.000", ""],
    ["Air change rate n_{50}, depressurization", down, "0.000", "1/h"],
    ["Air change rate n_{50}, pressurization", up, "0.000", "1/h"],
  ];
  lines.forEach(([label, formula, format, unit], index) => {
    const row = at + 1 + index;
    sheet
      .rich(`F${row}`, label, looks.label)
      .formula(`G${row}`, formula, native(format))
      .put(`H${row}`, unit, looks.unit);
  });
  const meanRow = at + 1 + lines.length;
  const pair = `G${meanRow - 2}:G${meanRow - 1}`;
  const both = `IF(COUNT(${pair})=2,AVERAGE(${pair}),NA())`;
  sheet.rich(`F${meanRow}`, "Air change rate n_{50}, mean", looks.strong).put(`H${meanRow}`, "1/h", looks.unit);
  sheet.formula(`G${meanRow}`, both, style({ bold: true }, native("0.000")));
  sheet
    .put(`F${meanRow + 1}`, "Limit, n50 at 50 Pa", looks.label)
    .type(`G${meanRow + 1}`, limit, "0.0##")
    .put(`H${meanRow + 1}`, "1/h", looks.unit);
  sheet.put(`F${meanRow + 2}`, "Result against the limit", looks.strong);
  sheet.addIn(
    `G${meanRow + 2}`,
    call("PASSFAIL", `G${meanRow}`, `G${meanRow + 1}`, undefined, quoted("plain")),
    style({ bold: true }, fromAddIn(undefined, "center")),
  );
  sheet.put(`H${meanRow + 2}`, "plain acceptance", looks.unit);
  sheet.moreDigitsNear(`G${meanRow}`, `G${meanRow + 1}`);
  sheet.validate(
    between(
      `G${meanRow + 1}`,
      0.01,
      100,
      "Limit",
      "The programme’s limit for n50; local code and the certifier decide.",
    ),
  );
  sheet.put(
    `F${meanRow + 3}`,
    "Validity, uncertainty and the report belong to the workbook of the final test; this one shows how a log becomes readings.",
    looks.note,
  );
  sheet.merge(`F${meanRow + 3}:H${meanRow + 4}`);
}

function chart(sheet: Sheet): void {
  section(sheet, rows.chart - 1, ["B", "H"], "The log: building pressure in the course of the test");
  const column = (letter: string) => onSheet(sheets.log, `${letter}${logRows.first}:${letter}${logRows.last}`);
  const series = [lineSeries("building pressure", column("B"), column("C"), palette.petrol, 1)];
  const anchor = { from: { row: rows.chart - 1, col: 1 }, to: { row: rows.chart + 26, col: 8 } };
  sheet.chart(
    linearChart(series, [], anchor, {
      x: { title: "time", gridlines: true, format: "hh:mm" },
      y: { title: "indoors minus outdoors, Pa", gridlines: true },
      alternative:
        "Building pressure over time: covered, eight stations below zero, covered, eight stations above zero, covered.",
      textSize: 8,
    }),
  );
}

function howToRead(sheet: Sheet): void {
  legend(
    sheet,
    { at: rows.legend, others: "F", right: "H" },
    "Log holds the export as it came; Stations what was found in it, and which of them count; Readings sorts them by direction; Depressurization and Pressurization are the whole test, a row a step. " +
      "Notes says what is done with the rows. Local code and the certifier decide which limit holds. The result is the tester’s responsibility.",
    3,
  );
}
