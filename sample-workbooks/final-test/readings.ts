import { call, keepBlanks, quoted, writeSpillingCall } from "../blocks/add-in";
import { writeColumnHeads, writeHeading } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, input, looks, native, style } from "../blocks/style";
import type { Units } from "../blocks/units";
import { between, fromList, oneOf, text } from "../blocks/validation";
import { baselinePlaces, type Conditions, hasReadings, type RunForm } from "./conditions";
import { takesUncertainties } from "./criteria";
import { openingTable } from "./firm";
import { readingRows } from "./layout";
import type { Direction, DirectionReadings } from "./scenario";

const { first, last } = readingRows;
const range = (letters: string) => `$${letters}$${first}:$${letters}$${last}`;

/** What is typed of a run: building and fan pressures, and the baselines. */
export const runCellsTyped = {
  readings: [`D${first}:D${last}`, `F${first}:F${last}`],
  baselines: [baselinePlaces.before, baselinePlaces.after].map((set) => set.replaceAll("$", "")),
} as const;

/** Columns as the functions get them: blank rows stay blank. */
export const columns = {
  include: keepBlanks(range("C")),
  reading: keepBlanks(range("D")),
  opening: range("E"),
  fanPressure: range("F"),
  exponent: range("H"),
  certificate: `$G$${first}:$J$${last}`,
  induced: range("K"),
  indicated: range("L"),
  flow: range("N"),
  reason: range("U"),
} as const;

/** The readings, and beside each one every step up to its place on the fitted line. */
export function writeReadings(sheet: Sheet, form: RunForm, conditions: Conditions): void {
  const { units, direction, readings } = form;
  writeHeading(sheet, 19, ["B", "U"], "Readings, step by step");
  sheet.put("B20", "typed in", looks.group).put("G20", "from the certificate", looks.group);
  sheet.put("K20", "one step after the other", looks.group).put("O20", "against the fitted line", looks.group);
  sheet.put("U20", "typed in", looks.group);
  const typed = ["<no.", "^use", "pressure|reading|Pa", "^opening", "fan|pressure|Pa"];
  const certificate = ["c", "m", "from|Pa", "to|Pa"];
  const { flow } = units;
  const stepHeads = [
    "induced|pressure|Pa",
    `indicated|flow|${flow}`,
    `flow at|the fan|${flow}`,
    `through|envelope|${flow}`,
  ];
  const fitHeads = [
    `fitted|flow|${flow}`,
    "residual|%",
    "leverage",
    "Cook’s|distance",
    "n|without|it",
    "q50|without|it",
  ];
  writeColumnHeads(sheet, 23, "B", [
    ...typed,
    ...certificate,
    ...stepHeads,
    ...fitHeads,
    "<<why a reading|is left out",
  ]);
  for (let row = first; row <= last; row++) writeTypedRow(sheet, row, readings?.readings[row - first]);
  writeSteps(sheet, form, conditions);
  sheet.rich(
    "B37",
    "Indicated flow: c · p^{m} of the opening in use, at the certificate’s density; #N/A outside its range; with what further fans add, below. Flow at the fan: times the factor √(ρ_{cal}/ρ). Through the envelope: times the factor to the " +
      "envelope, by the balance of mass. Residual: reading against line. A reading set to “no” stays visible and takes no part; its reason stands at the end of the row.",
    looks.note,
  );
  sheet.merge("B37:U38");
  addRules(sheet, direction);
}

function writeTypedRow(sheet: Sheet, row: number, reading: DirectionReadings["readings"][number] | undefined): void {
  const [pressure = null, opening = null, fanPressure = null, leftOut = null] = reading ?? [];
  const use = reading ? (leftOut === null ? "yes" : "no") : null;
  sheet.put(`B${row}`, row - first + 1, looks.unit);
  sheet.type(`C${row}`, use, undefined, "center").type(`D${row}`, pressure, decimals(1));
  sheet.type(`E${row}`, opening, undefined, "center").type(`F${row}`, fanPressure, decimals(1));
  sheet.put(`U${row}`, leftOut, { ...style({ shrink: true }, input(undefined, "left")), numFmt: "@" });
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
  const inRange = `AND(F${row}>=I${row},F${row}<=J${row})`;
  const further = furtherFlow(row);
  const indicated = `IF(COUNT(F${row}:J${row})<5,NA(),IF(${inRange},G${row}*F${row}^H${row}+SUM(${further}),NA()))`;
  // Further fans without the first one would vanish without a word.
  sheet.formula(`L${row}`, `IF(F${row}="",IF(${further}="","",NA()),${indicated})`, native(decimals(1)));
  sheet.formula(`M${row}`, `IF(OR(L${row}="",$R$11=""),"",L${row}*$R$11)`, native(decimals(1)));
  sheet.formula(`N${row}`, `IF(OR(M${row}="",$R$12=""),"",M${row}*$R$12)`, native(decimals(1)));
}

function writeSteps(sheet: Sheet, form: RunForm, conditions: Conditions): void {
  const { direction } = form;
  const made = form.readings !== undefined;
  const baselines = [keepBlanks(conditions.baselineBefore), keepBlanks(conditions.baselineAfter)] as const;
  const whenRead = (formula: string) => `IF(${hasReadings},${formula},"")`;
  writeSpillingCall(
    sheet,
    `K${first}:K${last}`,
    whenRead(
      call("INDUCEDPRESSURE", columns.reading, ...baselines, quoted(direction), quoted("indoors minus outdoors")),
    ),
    () => fromAddIn(decimals(2)),
    made,
  );
  const formats = [decimals(1), decimals(2), decimals(3), decimals(3), decimals(3), decimals(1)];
  const residuals = call("FITRESIDUALS", columns.induced, columns.flow, "TestTechnique", columns.include);
  writeSpillingCall(
    sheet,
    `O${first}:T${last}`,
    whenRead(`IF(${takesUncertainties},"not for this technique",${residuals})`),
    (_, column) => fromAddIn(formats[column]),
    made,
  );
}

function addRules(sheet: Sheet, direction: Direction): void {
  const sign = direction === "depressurization" ? "below zero in this direction" : "above zero in this direction";
  const [lowest, highest] = direction === "depressurization" ? [-120, 20] : [-20, 120];
  sheet.validate(
    oneOf(
      `C${first}:C${last}`,
      ["yes", "no"],
      "Use this reading?",
      "No keeps the reading on the sheet without using it. Say why at the end of the row.",
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
      "The opening of the flow device, as on the sheet Firm.",
    ),
    between(
      `F${first}:F${last}`,
      0,
      2000,
      "Fan pressure, Pa",
      "As the gauge shows it. Outside the opening’s valid range the row shows an error.",
    ),
    text(
      `U${first}:U${last}`,
      "Why it is left out",
      "A reading that is set to “no” needs its reason: a gust, a door that opened. Without it no verdict is given.",
    ),
  );
}

/** Fans beside the first one of the readings, each with its columns: opening, fan pressure, flow. */
const fans = [
  { name: "fan 2", opening: "D", pressure: "E", flow: "F" },
  { name: "fan 3", opening: "G", pressure: "H", flow: "I" },
  { name: "fan 4", opening: "J", pressure: "K", flow: "L" },
] as const;

const rows = { title: 39, heads: 41, first: 42 } as const;
const sum = "M";
const rowOf = (reading: number) => rows.first + reading - readingRows.first;

/** The last row that the section takes. */
export const furtherFansLast = rowOf(readingRows.last);

/** The cell with what the further fans add to the indicated flow of a reading, blank where none ran; `reading` is its row. */
export const furtherFlow = (reading: number): string => `${sum}${rowOf(reading)}`;

/** Where one flow device is not enough: what each further one reads beside the first, reading by reading, and the flow that it adds. */
export function writeFurtherFans(sheet: Sheet, { flow: unit }: Units): void {
  writeHeading(
    sheet,
    rows.title,
    ["B", "U"],
    "Further fans at the same time, for large buildings; blank where they rest",
  );
  for (const { name, opening } of fans)
    sheet.put(`${opening}${rows.heads - 1}`, name, style({ align: "center" }, looks.group));
  writeColumnHeads(sheet, rows.heads, "B", [
    "<no.",
    "",
    ...fans.flatMap(() => ["^opening", "pressure|Pa", `flow|${unit}`]),
    `added|${unit}`,
  ]);
  for (let reading = readingRows.first; reading <= readingRows.last; reading++) {
    const row = rowOf(reading);
    sheet.put(`B${row}`, reading - readingRows.first + 1, looks.unit).paint(`C${row}`, looks.label);
    for (const { opening, pressure, flow } of fans) {
      sheet.type(`${opening}${row}`, null, undefined, "center").type(`${pressure}${row}`, null, decimals(1));
      sheet.formula(`${flow}${row}`, flowOf(`${opening}${row}`, `${pressure}${row}`), native(decimals(1)));
    }
    const typed = fans.map(({ opening, pressure }) => `${opening}${row}:${pressure}${row}`).join(",");
    const flows = fans.map(({ flow }) => `${flow}${row}`).join(",");
    sheet.formula(`${sum}${row}`, `IF(COUNTA(${typed})=0,"",SUM(${flows}))`, native(decimals(1)));
  }
  for (const { opening, pressure } of fans) {
    const range = (letter: string) => `${letter}${rows.first}:${letter}${furtherFansLast}`;
    sheet.validate(
      fromList(
        range(opening),
        openingTable.name,
        "Opening",
        "The opening of this fan, as on the sheet Firm; blank if it is not running.",
      ),
      between(
        range(pressure),
        0,
        2000,
        "Fan pressure, Pa",
        "As this fan’s gauge shows it; blank if it is not running.",
      ),
    );
  }
  sheet.rich(
    `O${rows.heads}`,
    "The row belongs to the reading with the same number. Each fan gives c · p^{m} of its opening, #N/A outside the range of its certificate; column L above is the sum of all fans. " +
      "The openings of all fans are in one table on the sheet Firm, with a separate row for each fan whose certificate differs; enter the certificates themselves among the further instruments there. " +
      "The budget of uncertainty counts the whole flow of a reading under the opening of its first fan, which is the cautious side for its calibration.",
    looks.note,
  );
  sheet.merge(`O${rows.heads}:U${rows.heads + 9}`);
}

/** The indicated flow of one fan: blank where it rests, #N/A where half of the pair is missing, the certificate is, or the pressure leaves its range. */
function flowOf(opening: string, pressure: string): string {
  const found = (letter: string) => `INDEX(${openingTable.column(letter)},MATCH(${opening},${openingTable.name},0))`;
  const [c, m, from, to] = ["D", "E", "F", "G"].map(found) as [string, string, string, string];
  const certified = `IF(COUNT(${pressure},${c},${m},${from},${to})<5,NA(),IF(AND(${pressure}>=${from},${pressure}<=${to}),${c}*${pressure}^${m},NA()))`;
  return `IF(COUNTA(${opening},${pressure})=0,"",IF(COUNTA(${opening},${pressure})<2,NA(),${certified}))`;
}
