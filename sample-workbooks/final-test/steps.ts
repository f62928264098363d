import { call, keepBlanks, quoted } from "../blocks/add-in";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native } from "../blocks/style";
import { between, fromList, oneOf } from "../blocks/validation";
import type { Conditions } from "./conditions";
import { openingTable } from "./instruments";
import type { Direction, DirectionReadings } from "./readings";

/** Rows of the readings: up to twelve. */
export const readingRows = { first: 24, last: 35 } as const;

const { first, last } = readingRows;
const range = (letters: string) => `$${letters}$${first}:$${letters}$${last}`;

/** Columns as the functions get them: blank rows stay blank. */
export const columns = {
  include: keepBlanks(range("C")),
  reading: keepBlanks(range("D")),
  fanPressure: keepBlanks(range("F")),
  certificate: `$G$${first}:$J$${last}`,
  induced: range("K"),
  indicated: range("L"),
  flow: range("N"),
} as const;

/** The readings, and beside each one every step up to its place on the fitted line. */
export function readingsSection(
  sheet: Sheet,
  direction: Direction,
  { readings }: DirectionReadings,
  conditions: Conditions,
): void {
  section(sheet, 19, ["B", "T"], "Readings, step by step");
  sheet.put("B20", "typed in", looks.group).put("G20", "from the certificate", looks.group);
  sheet.put("K20", "one step after the other", looks.group).put("O20", "against the fitted line", looks.group);
  const typed = ["<no.", "^use", "pressure|reading|Pa", "^opening", "fan|pressure|Pa"];
  const certificate = ["c", "m", "from|Pa", "to|Pa"];
  const stepHeads = ["induced|pressure|Pa", "indicated|flow|m³/h", "flow at|the fan|m³/h", "through the|envelope|m³/h"];
  const fitHeads = ["fitted|flow|m³/h", "residual|%", "leverage", "Cook’s|distance", "n|without it", "q50|without it"];
  columnHeads(sheet, 23, "B", [...typed, ...certificate, ...stepHeads, ...fitHeads]);
  for (let row = first; row <= last; row++) typedRow(sheet, row, readings[row - first]);
  stepColumns(sheet, direction, conditions);
  sheet.rich(
    "B37",
    "Indicated flow: c · p^{m} of the opening in use, at the certificate’s density. Flow at the fan: times the factor √(ρ_{cal}/ρ). Through the envelope: times the factor to the " +
      "envelope, by the balance of mass. Residual: reading against line. A reading set to “no” stays visible and takes no part.",
    looks.note,
  );
  sheet.merge("B37:T38");
  validate(sheet, direction);
}

function typedRow(sheet: Sheet, row: number, reading: DirectionReadings["readings"][number] | undefined): void {
  const [pressure = null, opening = null, fanPressure = null] = reading ?? [];
  sheet.put(`B${row}`, row - first + 1, looks.unit);
  sheet.type(`C${row}`, reading ? "yes" : null, undefined, "center").type(`D${row}`, pressure, decimals(1));
  sheet.type(`E${row}`, opening, undefined, "center").type(`F${row}`, fanPressure, decimals(1));
  const certificate = {
    G: ["D", decimals(2)],
    H: ["E", decimals(3)],
    I: ["F", decimals(0)],
    J: ["G", decimals(0)],
  } as const;
  for (const [letter, [source, format]] of Object.entries(certificate)) {
    const found = `INDEX(${openingTable.column(source)},MATCH($E${row},${openingTable.name},0))`;
    // A blank in the certificate must not become a range without end.
    sheet.formula(`${letter}${row}`, `IF($E${row}="","",IF(COUNT(${found})=0,NA(),${found}))`, native(format));
  }
  sheet.formula(`M${row}`, `IF(L${row}="","",L${row}*$R$11)`, native(decimals(1)));
  sheet.formula(`N${row}`, `IF(M${row}="","",M${row}*$R$12)`, native(decimals(1)));
}

function stepColumns(sheet: Sheet, direction: Direction, conditions: Conditions): void {
  const baselines = [keepBlanks(conditions.baselineBefore), keepBlanks(conditions.baselineAfter)] as const;
  sheet.addIn(
    `K${first}:K${last}`,
    call("INDUCEDPRESSURE", columns.reading, ...baselines, quoted(direction), quoted("indoors minus outdoors")),
    fromAddIn(decimals(2)),
  );
  sheet.addIn(
    `L${first}:L${last}`,
    call("FANFLOW", columns.fanPressure, range("G"), range("H"), range("I"), range("J")),
    fromAddIn(decimals(1)),
  );
  const formats = [decimals(1), decimals(2), decimals(3), decimals(3), decimals(3), decimals(1)];
  sheet.addIn(
    `O${first}:T${last}`,
    call("FITRESIDUALS", columns.induced, columns.flow, quoted("ordinary"), columns.include),
    (_, column) => fromAddIn(formats[column]),
  );
}

function validate(sheet: Sheet, direction: Direction): void {
  const sign = direction === "depressurization" ? "below zero in this direction" : "above zero in this direction";
  const [lowest, highest] = direction === "depressurization" ? [-120, 20] : [-20, 120];
  sheet.validate(
    oneOf(
      `C${first}:C${last}`,
      ["yes", "no"],
      "Use this reading?",
      "No keeps the reading on the sheet without using it. Say why in the notes.",
    ),
    between(
      `D${first}:D${last}`,
      lowest,
      highest,
      "Pressure reading, Pa",
      `Indoors minus outdoors as the gauge shows it: ${sign}. The baseline is taken off by the sheet.`,
    ),
    fromList(
      `E${first}:E${last}`,
      openingTable.name,
      "Opening",
      "The opening of the flow device, as on the sheet Instruments.",
    ),
    between(
      `F${first}:F${last}`,
      0,
      2000,
      "Fan pressure, Pa",
      "As the gauge shows it. Outside the opening’s valid range the row shows an error.",
    ),
  );
}
