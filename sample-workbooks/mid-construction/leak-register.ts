import { onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { input, looks, palette, style } from "../blocks/style";
import { between, day, fromList, oneOf, text, wholeBetween } from "../blocks/validation";
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
import { writeDerived } from "./register-derived";

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
