import { columnOf, lettersOf, onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, input, looks, native, palette, shortDay, style } from "../blocks/style";
import { between, day, fromList, oneOf, text, wholeBetween } from "../blocks/validation";
import { listPlaces, tradeCount } from "./basis";
import { footer, leakTable, sheets } from "./layout";
import { type Leak, leaks } from "./leaks";
import { steps } from "./series";

export const states = ["open", "repaired", "retested", "accepted"] as const;
export const severities = ["small", "medium", "large"] as const;
const payers = ["trade", "builder", "client"] as const;

const table = { heads: 8, first: 9, last: 48 } as const;

type Field = keyof Leak;

interface Column {
  readonly head: string;
  readonly width: number;
  readonly format?: string;
}

/** The table's columns, in order: where and what on the first printed page, who and how much on the second. */
const columns = {
  no: { head: "no", width: 4.5, format: decimals(0) },
  storey: { head: "storey", width: 11.5 },
  place: { head: "place", width: 27 },
  element: { head: "element", width: 12 },
  trade: { head: "trade", width: 12.5 },
  byWhom: { head: "by whom", width: 16 },
  action: { head: "action", width: 28 },
  photo: { head: "photo", width: 6, format: decimals(0) },
  due: { head: "due", width: 10.5, format: shortDay },
  state: { head: "state", width: 8.5 },
  found: { head: "found", width: 7, format: "d mmm" },
  foundBy: { head: "found by", width: 8 },
  direction: { head: "direction", width: 14 },
  severity: { head: "severity", width: 7.5 },
  retest: { head: "retest", width: 7, format: "d mmm" },
  planned: { head: "planned", width: 7 },
  pays: { head: "pays", width: 7 },
  cost: { head: "cost", width: 7, format: "0.##" },
  likely: { head: "likely", width: 6, format: "0.0##" },
  low: { head: "low", width: 5.5, format: "0.0##" },
  high: { head: "high", width: 5.5, format: "0.0##" },
} as const satisfies Record<Field, Column>;

const fields = Object.keys(columns) as Field[];
const letterOf = (field: Field) => lettersOf(columnOf("B") + fields.indexOf(field));

/** Columns that follow from the table: outside it, because a protected sheet sorts a table only if all its cells are unlocked. */
const derived = {
  flow: "W",
  from: "X",
  to: "Y",
  basis: "Z",
  worth: "AA",
  rank: "AB",
  remark: "AD",
  step: "AE",
  planned: "AF",
  plannedLikely: "AG",
  plannedLow: "AH",
  plannedHigh: "AI",
  key: "AJ",
  share: "AK",
} as const;

const whole = (letter: string) => onSheet(sheets.register, `${letter}${table.first}:${letter}${table.last}`);

/** What other sheets read from the register: a column's cells, and how many rows it has. */
export const register = {
  rows: table.last - table.first + 1,
  /** A typed column. */
  typed: (field: Field) => whole(letterOf(field)),
  /** A column that follows from it. */
  derived: (name: keyof typeof derived) => whole(derived[name]),
  /** Likely, low and high flow of the planned repairs; a blank row for every other leak. */
  planned: onSheet(sheets.register, `${derived.plannedLikely}${table.first}:${derived.plannedHigh}${table.last}`),
} as const;

/** Every leak with its place, its trade, its flow and its cost, as a table that can be filtered and sorted; the flow ranks the repairs. */
export function registerPage(): Page {
  const widths = [1.5, ...fields.map((field) => columns[field].width), 6, 5.5, 5.5, 10.5, 8, 5, 3, 26];
  const sheet = new Sheet(sheets.register, [...widths, ...Array<number>(8).fill(9)], palette.copper, {
    orientation: "landscape",
    areas: [`B1:${letterOf("state")}${table.last}`, `${letterOf("found")}1:${derived.rank}${table.last}`],
    titleRows: "1:8",
    titleColumn: "B",
    footer,
    footerSize: 8,
  });
  const lead =
    "One row per leak, found while the house was under pressure. The orange columns are typed in; the table can be filtered and sorted.";
  // Column B is repeated on the second page, where there is no room beside it for words.
  writePageHead(sheet, letterhead, ["C", letterOf("state")], sheets.register, lead);
  writePageHead(
    sheet,
    letterhead,
    [letterOf("found"), derived.rank],
    `${sheets.register}: who, how much, what it is worth`,
    "Flow at 50 Pa that a repair takes away: measured by tape and retest if a step names the leak, otherwise as estimated.",
  );
  sheet.heightOf(15, 5, 8).heightOf(24, table.first, table.last);
  writeLeakTable(sheet);
  writeDerived(sheet);
  addRules(sheet);
  sheet.freeze(table.heads);
  return { sheet, names: { LeakNumbers: whole("B") } };
}

function writeLeakTable(sheet: Sheet): void {
  const { heads, first, last } = table;
  writeHeading(sheet, 5, ["C", letterOf("state")], "Where, what, who, by when");
  writeHeading(sheet, 5, [letterOf("found"), letterOf("high")], "How it was found; plan, cost and estimate");
  writeHeading(sheet, 5, [derived.flow, derived.rank], "From these, and from the tape series");
  const faults = `SUMPRODUCT((${derived.remark}${first}:${derived.remark}${last}<>"")*1)`;
  sheet.formula("C6", `"Rows to look into: "&${faults}`, style({ size: 9, colour: palette.grey }));
  sheet.when("C6", `${faults}>0`, { font: { bold: true, color: { rgb: palette.fail } } });
  const unit = style({ size: 8, colour: palette.grey, align: "left" });
  sheet.formula(`${letterOf("cost")}7`, 'Currency&""', unit);
  for (const letter of [letterOf("likely"), letterOf("low"), letterOf("high"), derived.flow, derived.from, derived.to])
    sheet.put(`${letter}7`, "m³/h", unit);
  sheet.formula(`${derived.worth}7`, '"m³/h per"', unit);
  writeColumnHeads(
    sheet,
    heads,
    "B",
    fields.map((field) => `<${columns[field].head}`),
  );
  writeColumnHeads(sheet, heads, derived.flow, ["flow", "least", "most", "<<from", "", "^rank"]);
  sheet.formula(`${derived.worth}${heads}`, '"100 "&Currency', looks.columnHead);
  for (const field of fields) {
    const { format }: Column = columns[field];
    for (let row = first; row <= last; row++)
      sheet.put(`${letterOf(field)}${row}`, leaks[row - first]?.[field] ?? null, input(format, "left", true));
  }
  sheet.table(
    leakTable,
    `B${heads}:${letterOf("high")}${last}`,
    fields.map((field) => columns[field].head),
  );
  const body = `B${first}:${derived.rank}${last}`;
  const done = isDone(first);
  sheet.when(body, done, { font: { color: { rgb: palette.grey } } });
  sheet.when(body, `AND(${at("severity", first)}="large",NOT(${done}),${at("place", first)}<>"")`, {
    font: { color: { rgb: palette.fail } },
  });
}

/** A cell of the table, its column fixed. */
function at(field: Field, row: number): string {
  return `$${letterOf(field)}${row}`;
}

function isDone(row: number): string {
  return `OR(${at("state", row)}="retested",${at("state", row)}="accepted")`;
}

/** Flow, its range and where it comes from; what is to look into; worth and rank; what the forecast takes. */
function writeDerived(sheet: Sheet): void {
  const { first, last } = table;
  const { flow, from, to, basis, worth, rank, remark, step, planned, key, share } = derived;
  writeHeading(sheet, 5, [remark, share], "Behind the register (not printed)");
  writeColumnHeads(sheet, table.heads, remark, [
    "<to look into",
    "step",
    "planned",
    "likely",
    "low",
    "high",
    "worth",
    "<share",
  ]);
  const number = native(decimals(1));
  const kinds = `((${steps.kind}="temporary")+(${steps.kind}="lasting"))`;
  const numbers = (letter: string) => `${letter}$${first}:${letter}$${last}`;
  for (let row = first; row <= last; row++) {
    const estimate = `${at("likely", row)}:${at("high", row)}`;
    const taped = `SUMPRODUCT(MAX((${steps.leak}=${at("no", row)})*${kinds}*(${steps.shown}<>"")*(ROW(${steps.leak})-ROW(INDEX(${steps.leak},1))+1)))`;
    sheet.formula(`${step}${row}`, `IF(${at("no", row)}="",0,${taped})`, native(decimals(0)));
    const isLasting = `IF($${step}${row}=0,FALSE,INDEX(${steps.kind},$${step}${row})="lasting")`;
    // A lasting repair has had its effect: one that is still planned for the same leak is a further one, and estimated.
    const isMeasured = `IF($${step}${row}=0,FALSE,NOT(AND(${isLasting},${at("planned", row)}="yes")))`;
    const gain = `INDEX(${steps.gain},$${step}${row})`;
    const halfWidth = `INDEX(${steps.halfWidth},$${step}${row})`;
    const measured = (value: string, parts: readonly string[]) =>
      `IF(OR(${parts.map((part) => `${part}=""`).join(",")}),NA(),MAX(0,${value}))`;
    const estimated = (field: Field) =>
      `IF(COUNT(${estimate})<COUNTA(${estimate}),NA(),IF(${at(field, row)}="","",${at(field, row)}))`;
    const either = (one: string, other: string) => `IF(${at("place", row)}="","",IF(${isMeasured},${one},${other}))`;
    sheet.formula(`${flow}${row}`, either(measured(gain, [gain]), estimated("likely")), number);
    const end = (sign: string) => measured(`${gain}${sign}${halfWidth}`, [gain, halfWidth]);
    sheet.formula(`${from}${row}`, either(end("-"), estimated("low")), number);
    sheet.formula(`${to}${row}`, either(end("+"), estimated("high")), number);
    const tape = `IF(${isLasting},"won","tape")&", step "&$${step}${row}-1`;
    const words = style({ indent: 1, align: "left" }, looks.label);
    sheet.formula(`${basis}${row}`, either(tape, `IF(COUNTA(${estimate})>0,"estimate","")`), words);
    const ranked = `AND(ISNUMBER(${flow}${row}),ISNUMBER(${at("cost", row)}),NOT(${isDone(row)}),LEFT(${basis}${row},3)<>"won")`;
    const isText = `ISTEXT(${at("cost", row)})`;
    const perCost = `IF(${at("cost", row)}=0,10^9+${flow}${row},${flow}${row}/${at("cost", row)})`;
    sheet.formula(`${key}${row}`, `IF(${isText},NA(),IF(${ranked},${perCost},""))`, native("0.000"));
    sheet.formula(
      `${worth}${row}`,
      `IF(${key}${row}="","",IF(${at("cost", row)}=0,"no cost",100*${key}${row}))`,
      number,
    );
    const keys = numbers(`$${key}`);
    const upTo = `$${key}$${first}:$${key}${row}`;
    const higher = `SUMPRODUCT(ISNUMBER(${keys})*(${keys}>${key}${row}))`;
    const alike = `SUMPRODUCT(ISNUMBER(${upTo})*(${upTo}=${key}${row}))`;
    sheet.formula(
      `${rank}${row}`,
      `IF(${key}${row}="","",${higher}+${alike})`,
      style({ align: "center" }, native("0")),
    );
    const ordered = `AND(COUNT(${flow}${row}:${to}${row})=3,${from}${row}<=${flow}${row},${flow}${row}<=${to}${row})`;
    const isPlanned = `${at("planned", row)}="yes"`;
    const above = row === first ? "0" : `COUNT(${planned}$${first}:${planned}${row - 1})`;
    sheet.formula(`${planned}${row}`, `IF(${isPlanned},IF(${ordered},${above}+1,""),"")`, native("0"));
    for (const [letter, value] of [
      [derived.plannedLikely, flow],
      [derived.plannedLow, from],
      [derived.plannedHigh, to],
    ] as const)
      sheet.formula(
        `${letter}${row}`,
        `IF(${isPlanned},IF(ISERROR(${value}${row}),NA(),IF(${ordered},${value}${row},"")),"")`,
        number,
      );
    sheet.formula(
      `${share}${row}`,
      `IF(${at("place", row)}="","",IF(OR(${isDone(row)},LEFT(${basis}${row},3)="won"),"won","left"))`,
      looks.label,
    );
    sheet.formula(`${remark}${row}`, remarkOn(row, { estimate, ordered, isPlanned }), looks.label);
  }
  sheet.when(`${remark}${first}:${remark}${last}`, `${remark}${first}<>""`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
}

/** The first thing that is wrong with a row; blank where nothing is. */
function remarkOn(
  row: number,
  { estimate, ordered, isPlanned }: { readonly estimate: string; readonly ordered: string; readonly isPlanned: string },
): string {
  const unknown = (field: "trade" | "storey", list: keyof typeof listPlaces) => {
    const letter = listPlaces[list];
    const range = onSheet(sheets.basis, `${letter}${listPlaces.first}:${letter}${listPlaces.first + tradeCount - 1}`);
    return `OR(${at(field, row)}="",SUMPRODUCT((${range}=${at(field, row)})*1)=0)`;
  };
  const isState = `OR(${states.map((state) => `${at("state", row)}="${state}"`).join(",")})`;
  const flows = `COUNT(${estimate})`;
  const numbers = `$B$${table.first}:$B$${table.last}`;
  const faults: readonly (readonly [condition: string, words: string])[] = [
    [`${at("no", row)}=""`, "no number"],
    [`SUMPRODUCT((${numbers}=${at("no", row)})*1)>1`, "number given twice"],
    [unknown("trade", "Trades"), "trade missing or unknown"],
    [`NOT(${isState})`, "state missing or unknown"],
    [unknown("storey", "Storeys"), "storey missing or unknown"],
    [`COUNTA(${estimate})>${flows}`, "a number, please"],
    [`AND(${flows}>0,${flows}<3)`, "three numbers, please"],
    [
      `IF(${flows}<3,FALSE,OR(${at("likely", row)}<${at("low", row)},${at("likely", row)}>${at("high", row)}))`,
      "low ≤ likely ≤ high",
    ],
    [`AND(${isPlanned},${isDone(row)})`, "planned, but retested"],
    [`IF(${isPlanned},NOT(IFERROR(${ordered},FALSE)),FALSE)`, "planned, but no flow"],
  ];
  const first = faults.reduceRight((otherwise, [condition, words]) => `IF(${condition},"${words}",${otherwise})`, '""');
  return `IF(${at("place", row)}="","",${first})`;
}

function addRules(sheet: Sheet): void {
  const { first, last } = table;
  const column = (field: Field) => `${letterOf(field)}${first}:${letterOf(field)}${last}`;
  const flowHint =
    "What a repair takes away at 50 Pa, m³/h: likely, least and most. Not needed if a tape has measured it.";
  sheet.validate(
    wholeBetween(column("no"), 1, 9999, "Number", "Each number once; Tape and retest finds the leak by it."),
    fromList(column("storey"), "Storeys", "Storey", "From the list on House and instruments."),
    text(column("place"), "Place", "So that someone else finds it again.", 60),
    fromList(column("element"), "Elements", "Element", "From the list on the sheet House and instruments."),
    fromList(column("trade"), "Trades", "Trade", "Who has to mend it; from the list on House and instruments."),
    text(column("byWhom"), "By whom", "Firm or person.", 40),
    text(column("action"), "Action", "What is to be done.", 70),
    wholeBetween(column("photo"), 1, 999_999, "Photo", "Number of the photo that shows the place."),
    day(column("due"), "Due", "The day by which it is to be repaired; it stands on the trade’s sheet."),
    oneOf(column("state"), states, "State", "Open, repaired, retested under pressure, accepted by the tester."),
    day(column("found"), "Found", "The day on which it was found."),
    fromList(column("foundBy"), "WaysOfFinding", "Found by", "Smoke, hand, infrared or sound."),
    oneOf(
      column("direction"),
      ["depressurization", "pressurization"],
      "Direction",
      "Which way the fan blew when it was found. Some leaks open one way only.",
    ),
    oneOf(column("severity"), severities, "Severity", "By feel: large is a draught from an arm’s length."),
    day(column("retest"), "Retest", "The day on which it was tested again."),
    oneOf(
      column("planned"),
      ["yes"],
      "Planned",
      "yes: repaired before the final test, and not yet in the flow now. The forecast takes it from here.",
    ),
    oneOf(column("pays"), payers, "Pays", "Who pays: the trade, the builder, the client."),
    between(
      column("cost"),
      0,
      1e6,
      "Cost",
      "Of the repair, all told; 0 is a value. Repairs are ranked by flow per cost.",
    ),
    between(column("likely"), 0, 100_000, "Estimate: likely", flowHint),
    between(column("low"), 0, 100_000, "Estimate: least", flowHint),
    between(column("high"), 0, 100_000, "Estimate: most", flowHint),
  );
}
