import { onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette, style } from "../blocks/style";
import { type Direction, directions, sheets, stationCell, stationRows } from "./layout";
import { footer } from "./scenario";

const first = 8;
const last = first + stationRows.last - stationRows.first;

/** Columns of one direction: pressure, flow, use, baseline before, baseline after. */
const columnsOf: Readonly<Record<Direction, readonly [string, string, string, string, string]>> = {
  depressurization: ["F", "G", "H", "I", "J"],
  pressurization: ["L", "M", "N", "O", "P"],
};

/** The stations dealt out to the two directions: readings to their own, covered stretches to the one that they stand next to. */
export function readingsPage(): Page {
  const sheet = new Sheet(
    sheets.readings,
    [1.5, 5, 15, 14, 14, 10, 10, 7, 10, 10, 2, 10, 10, 7, 10, 10],
    palette.petrol,
    {
      orientation: "landscape",
      areas: [`B1:P${last + 3}`],
      pages: 1,
      footer,
      workingPaper: true,
    },
  );
  const lead = "A row a station, as on the sheet Stations; nothing is typed here. Blank cells do not count.";
  writePageHead(sheet, letterhead, ["B", "P"], "Stations as readings of two directions", lead);
  sheet.heightOf(13.5, 5, last + 3).freeze(7);
  writeHeading(sheet, 5, ["B", "E"], "Station");
  writeHeading(sheet, 5, ["F", "J"], "Depressurization");
  writeHeading(sheet, 5, ["L", "P"], "Pressurization");
  writeColumnHeads(sheet, 7, "B", ["no.", "<<counts as", "<fan ran before", "<fan runs after"]);
  for (const direction of directions)
    writeColumnHeads(sheet, 7, columnsOf[direction][0], [
      "pressure|Pa",
      "flow|m³/h",
      "^use",
      "baseline|before, Pa",
      "baseline|after, Pa",
    ]);
  for (let row = first; row <= last; row += 1) writeStationRow(sheet, row);
  sheet.put(
    `B${last + 1}`,
    "A covered stretch is the baseline before a direction where the fan next runs in it, and the baseline after it where the fan last ran in it; between two directions it is both. Flows are those that the fan indicates at its calibration density.",
    looks.note,
  );
  sheet.merge(`B${last + 1}:P${last + 2}`);
  return { sheet, names: {} };
}

/** Where a whole test finds the arguments that come from the stations. */
export function argumentsOf(
  direction: Direction,
): Readonly<Record<"pressures" | "flows" | "include" | "before" | "after", string>> {
  const [pressures, flows, include, before, after] = columnsOf[direction].map((letter) =>
    onSheet(sheets.readings, `${letter}${first}:${letter}${last}`),
  ) as [string, string, string, string, string];
  return { pressures, flows, include, before, after };
}

function writeStationRow(sheet: Sheet, row: number): void {
  const station = stationRows.first + row - first;
  const of = (column: Parameters<typeof stationCell>[0]) => stationCell(column, station);
  sheet.formula(`B${row}`, of("number"), native("0"));
  sheet.formula(`C${row}`, of("role"), style({ indent: 1 }, native(undefined, "left")));
  const running = `AND(C${row}<>"",C${row}<>"baseline")`;
  const ran = row === first ? '""' : `D${row - 1}`;
  const runs = row === last ? '""' : `E${row + 1}`;
  sheet.formula(`D${row}`, `IF(C${row}="","",IF(${running},C${row},${ran}))`, native(undefined, "left"));
  sheet.formula(`E${row}`, `IF(C${row}="","",IF(${running},C${row},${runs}))`, native(undefined, "left"));
  for (const direction of directions) {
    const [pressure, flow, use, before, after] = columnsOf[direction];
    const own = `C${row}="${direction}"`;
    sheet.formula(`${pressure}${row}`, `IF(${own},${of("pressure")},"")`, native(decimals(2)));
    sheet.formula(`${flow}${row}`, `IF(${own},${of("flow")},"")`, native(decimals(1)));
    sheet.formula(`${use}${row}`, `IF(${own},IF(${of("use")}="no","no","yes"),"")`, native(undefined, "center"));
    const covered = `AND(C${row}="baseline",${of("use")}<>"no")`;
    const [is, isNot] = [`="${direction}"`, `<>"${direction}"`];
    const beforeIt = `IF(${covered},IF(AND(E${row}${is},D${row}${isNot}),${of("pressure")},""),"")`;
    const afterIt = `IF(${covered},IF(AND(D${row}${is},E${row}${isNot}),${of("pressure")},""),"")`;
    sheet.formula(`${before}${row}`, beforeIt, native(decimals(2)));
    sheet.formula(`${after}${row}`, afterIt, native(decimals(2)));
  }
}
