import { call, quoted } from "../blocks/add-in";
import { columnOf, lettersOf, onSheet } from "../blocks/address";
import { letterhead, writePageHead } from "../blocks/heading";
import type { CellStyle } from "../blocks/hucre";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, input, looks, native, palette, style } from "../blocks/style";
import { between, day, text, validateTemperatures } from "../blocks/validation";
import { houseColumns as at, houseRows, sheets } from "./layout";
import { footer, type House, madeHouses, type Stations } from "./scenario";

type Column = keyof typeof at;
const { head, first, last } = houseRows;

/** Heads of the table's columns; a table's own heads are single cells and all different. */
const heads: readonly (readonly [Column, string, number])[] = [
  ["id", "report", 5.7],
  ["tester", "tested by", 18.6],
  ["day", "day", 11],
  ["reported", "n50 reported, 1/h", 8.5],
  ["n50", "n50 recomputed, 1/h", 11],
  ["difference", "reported too high by, %", 9.2],
  ["verdict", "verdict", 9.8],
  ["probability", "probability of meeting the limit", 10.1],
  ["validity", "validity", 9.8],
  ["notMet", "what is not met", 27.3],
  ["score", "points", 6.3],
  ["why", "why to look at it", 45.2],
  ["volume", "volume, m³", 9],
  ["indoor", "indoors, °C", 8.5],
  ["outdoor", "outdoors, °C", 8.5],
  ["baseline", "baseline, Pa", 8.5],
  ["certificate", "certificates valid until", 13],
  ["cDown", "C, depr.", 9],
  ["nDown", "n, depr.", 8],
  ["r2Down", "r², depr.", 8.5],
  ["clDown", "C_L, depr.", 9],
  ["n50Down", "n50, depr.", 8.5],
  ["cUp", "C, press.", 9],
  ["nUp", "n, press.", 8],
  ["r2Up", "r², press.", 8.5],
  ["clUp", "C_L, press.", 9],
  ["n50Up", "n50, press.", 8.5],
  ["apart", "directions apart, %", 9.5],
  ["order", "order", 8],
];

const blocks: readonly (readonly [from: Column, title: string])[] = [
  ["firstPressureDown", "Δp depr."],
  ["firstFlowDown", "q depr."],
  ["firstPressureUp", "Δp press."],
  ["firstFlowUp", "q press."],
];

/** Five hundred reports, a row each: a typed row, its steps and its judgement side by side, so that the whole table filters as one. */
export function housesPage(): Page {
  const columns = layout();
  const sheet = new Sheet(sheets.houses, [1.5, ...columns.map(({ width }) => width)], palette.petrol, {
    orientation: "landscape",
    areas: [`B1:M${last}`],
    titleRows: `1:${head}`,
    footer,
  });
  const lead =
    "Judgement on the left, what the reports say in the middle, the steps between on the right. Filter by the heads; the judgement is printed.";
  writePageHead(sheet, letterhead, ["B", "M"], "The houses", lead);
  sheet.put("B4", "", looks.note).height(6, 4, 5).height(50, head).freeze(head);
  for (const { letter, head: words } of columns) {
    const isIndented = wordColumns.some((column) => at[column] === letter);
    const isWord = [
      "report",
      "tested by",
      "day",
      "verdict",
      "validity",
      "what is not met",
      "why to look at it",
    ].includes(words);
    sheet.put(
      `${letter}${head}`,
      words,
      style({ vertical: "bottom", indent: isIndented ? 1 : 0 }, isWord ? looks.columnHeadLeft : looks.columnHead),
    );
  }
  madeHouses().forEach((house, index) => writeHouseRow(sheet, first + index, house));
  sheet.table(
    "Houses",
    `B${head}:${at.order}${last}`,
    columns.map(({ head: words }) => words),
  );
  sheet.fold(`B${first}:B${last}`);
  addRules(sheet);
  markRows(sheet);
  return { sheet, names: { HouseTable: onSheet(sheets.houses, `B${first}:${at.order}${last}`) } };
}

/** Every column's head and width, from the first to the last. */
function layout(): readonly { readonly letter: string; readonly head: string; readonly width: number }[] {
  const named = heads.map(([column, words, width]) => ({ letter: at[column], head: words, width }));
  const stations = blocks.flatMap(([from, title]) =>
    Array.from({ length: 6 }, (_, index) => ({
      letter: lettersOf(columnOf(at[from]) + index),
      head: `${title} ${index + 1}`,
      width: 7,
    })),
  );
  return [...named, ...stations].sort((a, b) => columnOf(a.letter) - columnOf(b.letter));
}

const formats: Partial<Record<Column, string>> = {
  n50: "0.000",
  difference: decimals(1),
  probability: "0.000",
  score: "0",
  cDown: "0.00",
  cUp: "0.00",
  nDown: "0.000",
  nUp: "0.000",
  r2Down: "0.0000",
  r2Up: "0.0000",
  clDown: "0.00",
  clUp: "0.00",
  n50Down: "0.000",
  n50Up: "0.000",
  apart: "0.0",
  order: "0.00000",
};
const wordColumns: readonly Column[] = ["verdict", "validity", "notMet", "why"];

/** Ground without a frame: five hundred framed rows would be a fence. */
function typedLook(format: string | undefined, align: "left" | "right"): CellStyle {
  return { ...input(format, align), border: { bottom: { style: "thin", color: { rgb: palette.hair } } } };
}

function writeHouseRow(sheet: Sheet, row: number, house: House): void {
  const typed = (column: Column, value: string | number, format?: string) =>
    sheet.put(
      `${at[column]}${row}`,
      value,
      typedLook(format, typeof value === "string" || format === "d mmm yyyy" ? "left" : "right"),
    );
  typed("id", house.id);
  typed("tester", house.tester);
  typed("day", house.day, "d mmm yyyy");
  typed("reported", house.reported, "0.00");
  typed("volume", house.volume, "0.0");
  typed("indoor", house.indoor, decimals(1));
  typed("outdoor", house.outdoor, decimals(1));
  typed("baseline", house.baseline, "0.0");
  typed("certificate", house.certificateUntil, "d mmm yyyy");
  writeStations(sheet, row, "firstPressureDown", "firstFlowDown", house.depressurization);
  writeStations(sheet, row, "firstPressureUp", "firstFlowUp", house.pressurization);
  for (const { column, formula, addIn } of rowFormulas(row)) {
    const isWord = wordColumns.includes(column);
    const place = `${at[column]}${row}`;
    const isLong = column === "why" || column === "notMet";
    const touches = { indent: isWord ? 1 : 0, size: isLong ? 8 : 9, ...(isLong && { shrink: true }) };
    const side = isWord ? "left" : "right";
    if (addIn === true) sheet.addIn(place, formula, style(touches, fromAddIn(formats[column], side)));
    else sheet.formula(place, formula, style(touches, native(formats[column], side)));
  }
}

function writeStations(
  sheet: Sheet,
  row: number,
  pressuresFrom: Column,
  flowsFrom: Column,
  { pressures, flows }: Stations,
): void {
  for (const [from, values] of [
    [pressuresFrom, pressures],
    [flowsFrom, flows],
  ] as const)
    for (let index = 0; index < 6; index += 1)
      sheet.put(`${lettersOf(columnOf(at[from]) + index)}${row}`, values[index] ?? null, typedLook("0.0", "right"));
}

function addRules(sheet: Sheet): void {
  const column = (from: Column, to: Column = from) => `${at[from]}${first}:${at[to]}${last}`;
  validateTemperatures(sheet, { indoors: column("indoor"), outdoors: column("outdoor") }, "Mean over the test");
  sheet.validate(
    text(column("id", "tester"), "Report", "Number of the report, and who tested."),
    day(column("day"), "Day of the test", "As the report has it."),
    between(column("reported"), 0.01, 50, "n50 reported", "1/h, as the report has it."),
    between(column("volume"), 10, 1e6, "Volume", "Internal volume, m³, as the report has it."),
    between(
      column("baseline"),
      0,
      100,
      "Baseline",
      "Largest mean of the positive or negative baseline readings, Pa, without its sign.",
    ),
    day(column("certificate"), "Certificates", "The earliest day on which a certificate of the instruments runs out."),
    between(
      column("firstPressureDown", "lastPressureDown"),
      1,
      200,
      "Induced pressure",
      "Pa, without its sign, from the report’s table.",
    ),
    between(
      column("firstFlowDown", "lastFlowDown"),
      0.1,
      1e6,
      "Flow",
      "Through the envelope, m³/h, from the report’s table.",
    ),
    between(column("firstPressureUp", "lastPressureUp"), 1, 200, "Induced pressure", "Pa, from the report’s table."),
    between(
      column("firstFlowUp", "lastFlowUp"),
      0.1,
      1e6,
      "Flow",
      "Through the envelope, m³/h, from the report’s table.",
    ),
  );
}

/** Words that say "look" are bold; colour is only added. */
function markRows(sheet: Sheet): void {
  const bold = (rgb: string) => ({ font: { bold: true, color: { rgb } } });
  sheet.when(
    `${at.verdict}${first}:${at.verdict}${last}`,
    `OR($${at.verdict}${first}="fail",$${at.verdict}${first}="not valid")`,
    bold(palette.fail),
  );
  sheet.when(`${at.validity}${first}:${at.validity}${last}`, `$${at.validity}${first}="not valid"`, bold(palette.fail));
}

/** What one row computes: native formulas, and row calls of the add-in, none of which fills more than its own cell. */
interface RowFormula {
  readonly column: Column;
  readonly formula: string;
  readonly addIn?: true;
}

/** Conditions under which a valid row is looked at too, with the words for it and the points it brings; what is not met has a column of its own. */
function findings(
  cell: (column: Column) => string,
): readonly (readonly [holds: string, words: string, points: string])[] {
  const [difference, reported] = [cell("difference"), cell("reported")];
  const [n50, probability, apart] = [cell("n50"), cell("probability"), cell("apart")];
  const numbers = (...cells: string[]) => `COUNT(${cells.join(",")})=${cells.length}`;
  const guarded = (cells: string[], condition: string) => `IF(${numbers(...cells)},${condition},FALSE)`;
  return [
    [guarded([reported, n50], `(${reported}<=Limit)<>(${n50}<=Limit)`), quoted("verdict changes"), "PointsTurned"],
    [
      guarded([difference], `ABS(${difference})>ReportedTolerance`),
      `"reported "&TEXT(ABS(${difference}),"0.0")&" % "&IF(${difference}<0,"lower","higher")`,
      "PointsDifferent",
    ],
    [guarded([apart], `${apart}>LargestApart`), `"directions "&TEXT(${apart},"0")&" % apart"`, "PointsApart"],
    [`AND(${reported}<>"",NOT(ISNUMBER(${reported})))`, quoted("the reported n50 is no number"), "PointsDifferent"],
    [guarded([n50], `${n50}<LowestPlausible`), quoted("implausibly low"), "PointsImplausible"],
    [guarded([probability], `AND(${probability}>0.05,${probability}<0.95)`), quoted("near limit"), "PointsNear"],
  ];
}

/** Joins the words of the conditions that hold; each brings a semicolon before it, and the first one's is left off. */
function joinWords(parts: readonly (readonly [holds: string, words: string])[]): string {
  return `MID(${parts.map(([holds, words]) => `IF(${holds},"; "&${words},"")`).join("&")},3,300)`;
}

/** The formulas of one row of the table. */
function rowFormulas(row: number): readonly RowFormula[] {
  const cell = (column: Column) => `${at[column]}${row}`;
  const range = (first: Column, last: Column) => `${cell(first)}:${cell(last)}`;
  const down = { p: range("firstPressureDown", "lastPressureDown"), q: range("firstFlowDown", "lastFlowDown") };
  const up = { p: range("firstPressureUp", "lastPressureUp"), q: range("firstFlowUp", "lastFlowUp") };
  const n50 = cell("n50");
  const found = findings(cell);
  const typed = `${range("volume", "baseline")},${range("firstPressureDown", "lastFlowUp")}`;
  const text = `COUNTA(${typed})<>COUNT(${typed})`;
  // Such a report stands first in the list, and no other one's figures suffer from its errors.
  const failed = `OR(${text},ISERROR(${cell("n50Down")}),ISERROR(${cell("n50Up")}))`;
  const unlessFailed = (formula: string, otherwise = '""') => `IF(${failed},${otherwise},${formula})`;
  return [
    ...steps(cell, "depressurization", down, ["cDown", "nDown", "r2Down", "clDown", "n50Down"]),
    ...steps(cell, "pressurization", up, ["cUp", "nUp", "r2Up", "clUp", "n50Up"]),
    {
      column: "n50",
      formula: unlessFailed(
        `IF(COUNT(${cell("n50Down")},${cell("n50Up")})=0,"",AVERAGE(${cell("n50Down")},${cell("n50Up")}))`,
      ),
    },
    {
      column: "apart",
      formula: `IF(COUNT(${cell("n50Down")},${cell("n50Up")})=2,100*ABS(${cell("n50Down")}-${cell("n50Up")})/${n50},"")`,
    },
    {
      column: "difference",
      formula: `IF(COUNT(${cell("reported")},${n50})=2,100*(${cell("reported")}-${n50})/${n50},"")`,
    },
    {
      column: "notMet",
      formula: unlessFailed(
        notMet(cell, down, up),
        `IF(${text},"text where a number is due","the readings give no result")`,
      ),
    },
    {
      column: "validity",
      formula: unlessFailed(
        `IF(${n50}="",IF(${cell("id")}="","","open"),IF(${cell("notMet")}="","valid","not valid"))`,
        quoted("not valid"),
      ),
    },
    {
      column: "verdict",
      formula: `IF(${n50}="","",${call("PASSFAIL", n50, "Limit", `ExpandedShare*${n50}`, "AcceptanceRule", undefined, cell("validity"))})`,
      addIn: true,
    },
    {
      column: "probability",
      formula: `IF(${n50}="","",${call("CONFORMANCEPROBABILITY", n50, `ExpandedShare*${n50}/_xlfn.NORM.S.INV(0.975)`, "Limit")})`,
      addIn: true,
    },
    {
      column: "score",
      formula: unlessFailed(
        `IF(${n50}="","",IF(${cell("validity")}="not valid",PointsInvalid,0)+${found.map(([holds, , points]) => `IF(${holds},${points},0)`).join("+")})`,
        "PointsInvalid+PointsTurned+PointsDifferent",
      ),
    },
    {
      column: "why",
      formula: unlessFailed(
        `IF(${n50}="","",${joinWords(found.map(([holds, words]) => [holds, words]))})`,
        quoted("not recomputed"),
      ),
    },
    // Equal points: the earlier row first.
    { column: "order", formula: `IF(${cell("score")}="","",IF(${cell("score")}>0,${cell("score")}-ROW()/100000,""))` },
  ];
}

/** One direction from its readings to n50: C and n of the line, r², C at reference conditions, and the rate. */
function steps(
  cell: (column: Column) => string,
  direction: string,
  { p, q }: { readonly p: string; readonly q: string },
  [c, n, r2, cl, rate]: readonly [Column, Column, Column, Column, Column],
): RowFormula[] {
  const ifRead = (formula: string) => `IF(COUNTA(${p})=0,"",${formula})`;
  const reference = call("REFERENCECOEFFICIENT", cell(c), cell(n), quoted(direction), cell("indoor"), cell("outdoor"));
  return [
    { column: c, formula: ifRead(call("LEAKAGECOEFFICIENT", p, q)), addIn: true },
    { column: n, formula: ifRead(call("FLOWEXPONENT", p, q)), addIn: true },
    { column: r2, formula: ifRead(`INDEX(${call("LEAKAGEFIT", p, q)},3,3)`), addIn: true },
    {
      column: cl,
      formula: `IF(OR(${cell(c)}="",${cell("indoor")}="",${cell("outdoor")}=""),"",${reference})`,
      addIn: true,
    },
    {
      column: rate,
      formula: `IF(OR(${cell(cl)}="",${cell("volume")}=""),"",${cell(cl)}*50^${cell(n)}/${cell("volume")})`,
    },
  ];
}

type Readings = { readonly p: string; readonly q: string };

/** Which rules of validity a report breaks, in words. */
function notMet(cell: (column: Column) => string, down: Readings, up: Readings): string {
  const few = ({ p }: Readings) => `AND(COUNT(${p})>0,COUNT(${p})<FewestReadings)`;
  const low = ({ p }: Readings) => `AND(COUNT(${p})>0,MAX(${p})<HighestPressure)`;
  const outside = (n: Column) => `IF(${cell(n)}="",FALSE,OR(${cell(n)}<LowestExponent,${cell(n)}>HighestExponent))`;
  const loose = (r2: Column) => `IF(${cell(r2)}="",FALSE,${cell(r2)}<LowestR2)`;
  const old = `AND(COUNT(${cell("certificate")},${cell("day")})=2,${cell("certificate")}<${cell("day")})`;
  return joinWords([
    [`AND(BothDirections="yes",COUNT(${cell("n50Down")},${cell("n50Up")})=1)`, quoted("one direction only")],
    [`OR(${few(down)},${few(up)})`, quoted("too few readings")],
    [
      `IF(COUNT(${down.p},${up.p})=0,FALSE,MIN(${down.p},${up.p})<MAX(LowestPressure,BaselineFactor*${cell("baseline")}))`,
      quoted("lowest Δp"),
    ],
    [`OR(${low(down)},${low(up)})`, quoted("highest Δp")],
    [`${cell("baseline")}>LargestBaseline`, quoted("baseline")],
    [`OR(${outside("nDown")},${outside("nUp")})`, quoted("exponent")],
    [`OR(${loose("r2Down")},${loose("r2Up")})`, quoted("scatter")],
    [old, quoted("certificate out of date")],
  ]);
}
