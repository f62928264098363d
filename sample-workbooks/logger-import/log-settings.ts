import { onSheet } from "../blocks/address";
import { formLines } from "../blocks/form";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { between, oneOf, text } from "../blocks/validation";
import { settingsRows, sheets } from "./places";
import { opening } from "./scenario";

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
export function logSettings(sheet: Sheet): void {
  const { first, last } = settingsRows;
  section(sheet, first - 2, ["G", "I"], "How stations are found");
  columnHeads(sheet, first - 1, "G", ["<label", "value", "<<unit"]);
  formLines(sheet, first, { label: "G", value: "H", unit: "I" }, lines);
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
