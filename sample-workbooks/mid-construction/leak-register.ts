import { onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, input, looks, native, palette, style } from "../blocks/style";
import { between, day, fromList, oneOf, text, wholeBetween } from "../blocks/validation";
import { listPlaces, tradeCount } from "./basis";
import { footer, leakTable, sheets } from "./layout";
import { leaks } from "./leaks";
import {
  at,
  type Column,
  columns,
  derived,
  type Field,
  fields,
  isDone,
  letterOf,
  payers,
  severities,
  states,
  table,
} from "./register-columns";
import { steps } from "./series";

/** Every leak with its place, its trade, its flow and its cost, as a table that can be filtered and sorted; the flow ranks the repairs. */
export function registerPage(): Page {
  const widths = [1.5, ...fields.map((field) => columns[field].width), 6, 5.5, 5.5, 10.5, 8, 5, 3, 26];
  const sheet = new Sheet(sheets.register, [...widths, ...Array<number>(8).fill(9)], palette.copper, {
    orientation: "landscape",
    areas: [`B1:${letterOf("state")}${table.last}`, `${letterOf("found")}1:${derived.rank}${table.last}`],
    titleRows: "1:8",
    titleColumn: "B",
    footer,
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
  sheet.fold(`${letterOf("storey")}${table.first}:${letterOf("action")}${table.last}`);
  addRules(sheet);
  sheet.freeze(table.heads);
  return { sheet, names: { LeakNumbers: onSheet(sheets.register, `B${table.first}:B${table.last}`) } };
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
  const unitOfNumber = style({ align: "right" }, unit);
  for (const field of ["likely", "low", "high"] as const) sheet.put(`${letterOf(field)}7`, "m³/h", unit);
  for (const letter of [derived.flow, derived.from, derived.to]) sheet.put(`${letter}7`, "m³/h", unitOfNumber);
  sheet.put(`${derived.worth}7`, "m³/h per", unitOfNumber);
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
    day(column("due"), "Due", "The day by which it is to be repaired; it is printed on the trade’s sheet."),
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
    between(column("cost"), 0, 1e6, "Cost", "Of the whole repair; 0 is allowed. Repairs are ranked by flow per cost."),
    between(column("likely"), 0, 100_000, "Estimate: likely", flowHint),
    between(column("low"), 0, 100_000, "Estimate: least", flowHint),
    between(column("high"), 0, 100_000, "Estimate: most", flowHint),
  );
}

const { first, last } = table;
const { flow, from, to, basis, worth, rank, remark, step, planned, key, share } = derived;
const number = native(decimals(1));

/** What follows from the register: flow, its range and where it comes from; worth and rank; what the forecast takes; what to look into. */
function writeDerived(sheet: Sheet): void {
  writeHeading(sheet, 5, [remark, share], "Working cells (not printed)");
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
  for (let row = first; row <= last; row++) {
    writeFlow(sheet, row);
    writeRank(sheet, row);
    writePlanned(sheet, row);
    sheet.formula(`${remark}${row}`, remarkOn(row), looks.label);
    const won = `OR(${isDone(row)},${isWon(row)})`;
    sheet.formula(`${share}${row}`, `IF(${at("place", row)}="","",IF(${won},"won","left"))`, looks.label);
  }
  sheet.when(`${remark}${first}:${remark}${last}`, `${remark}${first}<>""`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
}

/** Likely, low and high estimate of a leak. */
function estimateOf(row: number): string {
  return `${at("likely", row)}:${at("high", row)}`;
}

/** Whether the flow of a leak is what lasting tape has won. */
function isWon(row: number): string {
  return `LEFT(${basis}${row},3)="won"`;
}

/** Flow with least and most: measured by the last step that taped the leak, or estimated. */
function writeFlow(sheet: Sheet, row: number): void {
  const kinds = `((${steps.kind}="temporary")+(${steps.kind}="lasting"))`;
  const place = `(ROW(${steps.leak})-ROW(INDEX(${steps.leak},1))+1)`;
  const taped = `SUMPRODUCT(MAX((${steps.leak}=${at("no", row)})*${kinds}*(${steps.shown}<>"")*${place}))`;
  sheet.formula(`${step}${row}`, `IF(${at("no", row)}="",0,${taped})`, native(decimals(0)));
  const [gain, halfWidth, kind] = [steps.gain, steps.halfWidth, steps.kind].map(
    (range) => `INDEX(${range},$${step}${row})`,
  ) as [string, string, string];
  const isLasting = `IF($${step}${row}=0,FALSE,${kind}="lasting")`;
  // A lasting repair has had its effect: one that is still planned for the same leak is a further one, and estimated.
  const isMeasured = `IF($${step}${row}=0,FALSE,NOT(AND(${isLasting},${at("planned", row)}="yes")))`;
  const estimate = estimateOf(row);
  const estimated = (field: Field) =>
    `IF(COUNT(${estimate})<COUNTA(${estimate}),NA(),IF(${at(field, row)}="","",${at(field, row)}))`;
  const either = (one: string, other: string) => `IF(${at("place", row)}="","",IF(${isMeasured},${one},${other}))`;
  const end = (sign: "-" | "+") => `IF(OR(${gain}="",${halfWidth}=""),NA(),MAX(0,${gain}${sign}${halfWidth}))`;
  sheet.formula(`${flow}${row}`, either(`IF(${gain}="",NA(),MAX(0,${gain}))`, estimated("likely")), number);
  sheet.formula(`${from}${row}`, either(end("-"), estimated("low")), number);
  sheet.formula(`${to}${row}`, either(end("+"), estimated("high")), number);
  const tape = `IF(${isLasting},"won","tape")&", step "&$${step}${row}-1`;
  const words = style({ indent: 1, align: "left" }, looks.label);
  sheet.formula(`${basis}${row}`, either(tape, `IF(COUNTA(${estimate})>0,"estimate","")`), words);
}

/** Flow per cost of what is still to be repaired, and its rank; equal ones keep the order of their rows. */
function writeRank(sheet: Sheet, row: number): void {
  const [cost, own] = [at("cost", row), `${key}${row}`];
  const ranked = `AND(ISNUMBER(${flow}${row}),ISNUMBER(${cost}),NOT(${isDone(row)}),NOT(${isWon(row)}))`;
  // What costs nothing comes first, the largest flow before the others.
  const perCost = `IF(${cost}=0,10^9+${flow}${row},${flow}${row}/${cost})`;
  sheet.formula(own, `IF(ISTEXT(${cost}),NA(),IF(${ranked},${perCost},""))`, native("0.000"));
  sheet.formula(`${worth}${row}`, `IF(${own}="","",IF(${cost}=0,"no cost",100*${own}))`, number);
  const all = `$${key}$${first}:$${key}$${last}`;
  const upTo = `$${key}$${first}:$${own}`;
  const higher = `SUMPRODUCT(ISNUMBER(${all})*(${all}>${own}))`;
  const alike = `SUMPRODUCT(ISNUMBER(${upTo})*(${upTo}=${own}))`;
  const look = style({ align: "center" }, native("0"));
  sheet.formula(`${rank}${row}`, `IF(${own}="","",${higher}+${alike})`, look);
}

/** Whether the range of a leak is whole and in order. */
function isOrdered(row: number): string {
  return `AND(COUNT(${flow}${row}:${to}${row})=3,${from}${row}<=${flow}${row},${flow}${row}<=${to}${row})`;
}

/** The flows of a planned repair for the forecast; none once it is retested, because the flow now has it. */
function writePlanned(sheet: Sheet, row: number): void {
  const counts = `AND(${at("planned", row)}="yes",NOT(${isDone(row)}))`;
  const above = row === first ? "0" : `COUNT(${planned}$${first}:${planned}${row - 1})`;
  sheet.formula(`${planned}${row}`, `IF(${counts},IF(${isOrdered(row)},${above}+1,""),"")`, native("0"));
  for (const [letter, value] of [
    [derived.plannedLikely, flow],
    [derived.plannedLow, from],
    [derived.plannedHigh, to],
  ] as const) {
    const taken = `IF(ISERROR(${value}${row}),NA(),IF(${isOrdered(row)},${value}${row},""))`;
    sheet.formula(`${letter}${row}`, `IF(${counts},${taken},"")`, number);
  }
}

/** The first thing that is wrong with a row; blank where nothing is. */
function remarkOn(row: number): string {
  const estimate = estimateOf(row);
  const isPlanned = `${at("planned", row)}="yes"`;
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
    [`IF(${isPlanned},NOT(IFERROR(${isOrdered(row)},FALSE)),FALSE)`, "planned, but no flow"],
  ];
  const first = faults.reduceRight((otherwise, [condition, words]) => `IF(${condition},"${words}",${otherwise})`, '""');
  return `IF(${at("place", row)}="","",${first})`;
}
