import { onSheet } from "../blocks/address";
import { writeColumnHeads, writeHeading } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette, style } from "../blocks/style";
import { listPlaces, tradeCount } from "./basis";
import { sheets } from "./layout";
import { at, derived, type Field, isDone, states, table } from "./register-columns";
import { steps } from "./series";

const { first, last } = table;
const { flow, from, to, basis, worth, rank, remark, step, planned, key, share } = derived;
const number = native(decimals(1));

/** What follows from the register: flow, its range and where it comes from; worth and rank; what the forecast takes; what to look into. */
export function writeDerived(sheet: Sheet): void {
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
