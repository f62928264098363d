import { columnHeads, letterhead, pageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, input, looks, palette, type Side } from "../blocks/style";
import { between, oneOf } from "../blocks/validation";
import { madeLog } from "./log";
import { logSettings } from "./log-settings";
import { logRows, settingsRows, sheets } from "./places";
import { footer } from "./scenario";

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
  pageHead(
    sheet,
    letterhead,
    ["B", "I"],
    "The log as it was exported",
    "Paste the export’s columns here, values only.",
  );
  sheet.freeze(5).height(26, 5);
  columnHeads(sheet, 5, "B", ["<time", "building pressure, Pa", "fan pressure, Pa", "^state"]);
  const { first, last } = logRows;
  const log = madeLog();
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
  logSettings(sheet);
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
