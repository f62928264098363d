import { call, keepBlanks } from "../blocks/add-in";
import { columnOf, lettersOf, onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, style } from "../blocks/style";
import { oneOf, text } from "../blocks/validation";
import { logRange, settingsRange, sheets, stationColumns as at, stationRows } from "./layout";
import { footer } from "./scenario";

/** What LOGSTATIONS finds in the log as it stands; another log fills more rows or fewer. */
const found = 19;
const { first, last } = stationRows;

const formats: readonly string[] = [
  ...["hh:mm:ss", "hh:mm:ss", "0", "0", decimals(2), "0.00", "0.000", "0.0"],
  ...[decimals(2), "0.0", "0.00", "0.00", "General", "General", "0", "0"],
];

/** The stations that the log holds, what each is for, and which ones the tester leaves out, with the reason. */
export function stationsPage(): Page {
  const widths = [1.5, 5, 10, 10, 9, 6, 9.5, 10, 10, 11, 7, 8.5, 10, 10, 12, 14, 6, 6, 17, 6, 18];
  const sheet = new Sheet(sheets.stations, widths, palette.petrol, {
    orientation: "landscape",
    areas: [`B1:U${last + 3}`],
    pages: 1,
    footer,
  });
  const lead =
    "Each steady stretch of the log is one station: its mean counts as a reading, its standard error says how well the mean is known.";
  writePageHead(sheet, letterhead, ["B", "U"], "Stations found in the log", lead);
  sheet.heightOf(13.5, 5, last + 3).freeze(8);
  writeHeading(sheet, 5, ["B", "U"], "Stations");
  writeColumnHeads(sheet, 8, "B", [
    ...["no.", "start", "end", "duration|s", "rows", "mean|pressure|Pa", "standard|deviation|Pa", "standard|error|Pa"],
    ...[
      "degrees of|freedom",
      "drift|Pa",
      "mean|flow|m³/h",
      "standard|deviation|m³/h",
      "standard|error|m³/h",
      "<<state",
      "<<look at",
      "first|row",
      "last|row",
    ],
    ...["<<counts as", "^use", "<why not"],
  ]);
  sheet.heightOf(12.7, 6, 8);
  const look = (_: number, column: number) => {
    const isText = column === 12 || column === 13;
    return style(
      { size: column === 13 ? 8 : 9, indent: isText ? 1 : 0 },
      fromAddIn(formats[column], isText ? "left" : "right"),
    );
  };
  sheet.addIn(
    `C${first}:R${first + found - 1}`,
    `IF(COUNTA(${logRange})=0,"",${call("LOGSTATIONS", keepBlanks(logRange), settingsRange)})`,
    look,
  );
  for (let row = first; row <= last; row += 1) writeJudgement(sheet, row);
  sheet.validate(
    oneOf(
      `T${first}:T${last}`,
      ["yes", "no"],
      "Use",
      "“no” leaves the station out of the test; it stays here. Blank means yes.",
    ),
    text(`U${first}:U${last}`, "Why not", "The reason why a station is left out; the report repeats it."),
  );
  sheet.put(
    `B${last + 1}`,
    "Rows below the last station stay free for a longer log: the table grows by itself. A station that the fan ran through gets its direction from the sign of its pressure; covered stretches are the baseline before or after the direction that they stand next to.",
    looks.note,
  );
  sheet.merge(`B${last + 1}:U${last + 2}`);
  return { sheet, names: { Stations: onSheet(sheets.stations, `C${first}:U${last}`) } };
}

/** Number, role and the tester's choice beside one station. */
function writeJudgement(sheet: Sheet, row: number): void {
  const before = lettersOf(columnOf("R") + 1);
  if (row >= stationRows.first + found) sheet.paint(`C${row}:R${row}`, style({ bottom: palette.hair }));
  sheet.formula(`B${row}`, `IF(C${row}="","",${row - stationRows.first + 1})`, native("0"));
  const role = `IF(${at.state}${row}="zero flow","baseline",IF(${at.pressure}${row}<0,"depressurization","pressurization"))`;
  sheet.formula(`${before}${row}`, `IF(C${row}="","",${role})`, style({ indent: 1 }, native(undefined, "left")));
  sheet.type(`T${row}`, null, undefined, "center").type(`U${row}`, null, undefined, "left", true);
  // A station left out without a reason would not stand up to a review.
  const owing = `AND($T${row}="no",$U${row}="")`;
  sheet.when(`U${row}`, owing, { fill: { type: "pattern", pattern: "solid", bgColor: { rgb: palette.fail } } });
}
