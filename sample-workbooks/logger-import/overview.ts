import { call, quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { linearChart, lineSeries } from "../blocks/chart";
import { firm, letterhead, trade, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { requireAddIn } from "../blocks/needs-add-in";
import { writeFactList, writeLegend } from "../blocks/overview";
import { type Page, Sheet } from "../blocks/sheet";
import { dateFormat, fromAddIn, input, looks, native, palette, style } from "../blocks/style";
import { between, day, text } from "../blocks/validation";
import { directions, logRows, onceLogged, sheets, stationCell, stationColumns, stationRows } from "./layout";
import { footer, house, limit, remark } from "./scenario";
import { expandedOfMean } from "./uncertainty";
import { resultOf, testSettingCell, writeTestSettings } from "./whole-test";

const rows = { facts: 6, results: 14, chart: 30, legend: 58 } as const;
const lastRow = rows.legend + 4;

/** One page: the house, what the test needs beside the log, the results, the log as a curve. */
export function overviewPage(): Page {
  const sheet = new Sheet(sheets.overview, [1.5, 20, 21, 13.5, 1.5, 32, 13.5, 16], palette.copper, {
    orientation: "portrait",
    areas: [`B1:H${lastRow}`],
    pages: 1,
    footer,
  });
  const lead =
    "A logger’s rows reduced to stations, and the stations to a test by ISO 9972, each step on its own sheet.";
  writePageHead(sheet, letterhead, ["B", "H"], "Airtightness test from a logger’s file", "");
  sheet.heightOf(14.5, 5, lastRow);
  writeFacts(sheet);
  const settings = writeTestSettings(sheet);
  writeResults(sheet);
  drawChart(sheet);
  explainWorkbook(sheet);
  const version = requireAddIn(sheet, {
    columns: ["B", "H"],
    lead: quoted(lead),
    marksExample: true,
    // A station, not a result of the test: that would add a step between log and verdict.
    result: stationCell("start", stationRows.first),
    waiting: [`G${rows.results + 1}:G${rows.results + 12}`],
  });
  const cell = (place: string) => onSheet(sheets.overview, place);
  return {
    sheet,
    names: {
      ...version,
      Summary: cell(`F${rows.results + 1}:H${rows.results + 12}`),
      TestSettings: cell(settings),
      House: cell(`C${rows.facts}`),
      Firm: cell(`G${rows.facts}`),
      TradeLine: cell(`G${rows.facts + 1}`),
      Remark: cell(`G${rows.facts + 2}`),
    },
  };
}

function writeFacts(sheet: Sheet): void {
  writeHeading(sheet, rows.facts - 1, ["B", "D"], "House");
  writeHeading(sheet, rows.facts - 1, ["F", "H"], "Test");
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
    ["Day of the test", house.day, style({ shrink: true }, input(dateFormat, "left"))],
  ] as const;
  writeFactList(sheet, rows.facts, ["B", "C", "D"], left);
  writeFactList(sheet, rows.facts, ["F", "G", "H"], right);
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

function writeResults(sheet: Sheet): void {
  const at = rows.results;
  writeHeading(sheet, at - 1, ["F", "H"], "Results");
  const stations = (role: string) =>
    `COUNTIF(${onSheet(sheets.stations, `${stationColumns.role}${stationRows.first}:${stationColumns.role}${stationRows.last}`)},"${role}")`;
  writeColumnHeads(sheet, at, "F", ["<", "value", "<<unit"]);
  const tested = (formula: string) => onceLogged(formula, '"not tested yet"');
  const [down, up] = directions.map((direction) => tested(resultOf(direction, "n50"))) as [string, string];
  const lines: readonly (readonly [label: string, formula: string, format: string, unit: string])[] = [
    ["Rows of the log", `COUNT(${onSheet(sheets.log, `B${logRows.first}:B${logRows.last}`)})`, "0", ""],
    ["Covered stretches (baseline)", stations("baseline"), "0", ""],
    ["Stations, depressurization", stations("depressurization"), "0", ""],
    ["Stations, pressurization", stations("pressurization"), "0", ""],
    ["Flow exponent n, depressurization", tested(resultOf("depressurization", "n")), "0.000", ""],
    ["Flow exponent n, pressurization", tested(resultOf("pressurization", "n")), "0.000", ""],
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
  const both = tested(`IF(COUNT(${pair})=2,AVERAGE(${pair}),NA())`);
  sheet.rich(`F${meanRow}`, "Air change rate n_{50}, mean", looks.strong).put(`H${meanRow}`, "1/h", looks.unit);
  sheet.formula(`G${meanRow}`, both, style({ bold: true }, native("0.000")));
  sheet.rich(`F${meanRow + 1}`, "Expanded uncertainty U, 95 %", looks.label);
  sheet
    .formula(`G${meanRow + 1}`, onceLogged(expandedOfMean), native("0.000"))
    .put(`H${meanRow + 1}`, "1/h", looks.unit);
  sheet
    .put(`F${meanRow + 2}`, "Limit, n50 at 50 Pa", looks.label)
    .type(`G${meanRow + 2}`, limit, "0.0##")
    .put(`H${meanRow + 2}`, "1/h", looks.unit);
  sheet.put(`F${meanRow + 3}`, "Result against the limit", looks.strong);
  const needed = ["barometric pressure", "calibration density"].map(testSettingCell).join(",");
  const judged = (letter: string) =>
    onSheet(sheets.stations, `${letter}${stationRows.first}:${letter}${stationRows.last}`);
  const [use, reason] = [judged(stationColumns.use), judged(stationColumns.reason)];
  const owing = `COUNTIF(${use},"no")>COUNTIFS(${use},"no",${reason},"?*")`;
  const verdict = call("PASSFAIL", `G${meanRow}`, `G${meanRow + 2}`, undefined, quoted("plain"));
  sheet.addIn(
    `G${meanRow + 3}`,
    onceLogged(`IF(OR(COUNT(${needed})<2,${owing}),NA(),${verdict})`, '"open"'),
    style({ bold: true }, fromAddIn(undefined, "center")),
  );
  sheet.put(`H${meanRow + 3}`, "plain acceptance", looks.unit);
  sheet.moreDigitsNear(`G${meanRow}`, `G${meanRow + 2}`);
  sheet.validate(
    between(
      `G${meanRow + 2}`,
      0.01,
      100,
      "Limit",
      "The programme’s limit for n50; local code and the certifier decide.",
    ),
  );
  sheet.put(
    `F${meanRow + 4}`,
    "No result without the barometer, the density of the certificate, and a reason for every station left out. Validity and the report belong to the workbook of the final test.",
    looks.note,
  );
  sheet.merge(`F${meanRow + 4}:H${meanRow + 5}`);
}

function drawChart(sheet: Sheet): void {
  writeHeading(sheet, rows.chart - 1, ["B", "H"], "The log: building pressure in the course of the test");
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

function explainWorkbook(sheet: Sheet): void {
  writeLegend(
    sheet,
    { at: rows.legend, others: "F", right: "H" },
    "Log holds the export as it came; Stations what was found in it, and which of them count; Readings sorts them by direction; Depressurization and Pressurization are the whole test, a row a step; Uncertainty tells how well it is known. " +
      "Local code and the certifier decide which limit holds. The result is the tester’s responsibility.",
    3,
  );
}
