import { addressOf, columnOf, lettersOf, onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, input, looks, native, palette, shortDay, style } from "../blocks/style";
import { countOf, countOfBoth } from "../blocks/typed-cells";
import { day, fromList, oneOf, text, wholeBetween } from "../blocks/validation";
import { listPlaces, tradeCount } from "./basis";
import { footer, sheets } from "./layout";
import { type Leak, leaks } from "./leaks";

const states = ["open", "repaired", "retested", "accepted"] as const;
const severities = ["small", "medium", "large"] as const;

const first = 8;
const last = first + tradeCount - 1;
const sum = style({ bold: true, top: palette.petrol, align: "right" });
const count = native(decimals(0));

/** Every leak with who has to mend it, as a table that can be filtered and sorted; what there is to do, counted by trade. */
export function registerPage(): Page {
  const widths = [1.5, 6.5, 13, 32, 15, 15, 11, 17, 11, 40, 20, 13, 12];
  const sheet = new Sheet(sheets.register, widths, palette.copper, {
    orientation: "landscape",
    areas: [`B1:M${table.last + 2}`],
    titleRows: `${table.heads}:${table.heads}`,
    footer,
  });
  const lead =
    "One row a leak, found while the house was under pressure. Filter by trade and hand each trade its list.";
  writePageHead(sheet, letterhead, ["B", "M"], sheets.register, lead);
  sheet.heightOf(15, 5, table.last + 2);
  writeCounts(sheet, name);
  writeLeakTable(sheet);
  addRules(sheet);
  const note =
    "Found while depressurizing: air blows in, to be felt and heard indoors. While pressurizing: smoke goes out, seen indoors as a thread, outdoors as a plume. The lists of elements, trades and ways of finding stand on the sheet House and instruments.";
  sheet.put(`B${table.last + 1}`, note, looks.note).merge(`B${table.last + 1}:M${table.last + 2}`);
  return { sheet, names: { LeakNumbers: onSheet(sheets.register, `B${table.first}:B${table.last}`) } };
}

/** How many leaks each trade has, by their state; how they were found; and rows that no count holds. */
function writeCounts(sheet: Sheet, table: string): void {
  writeHeading(sheet, first - 2, ["D", "I"], "Leaks by trade and state");
  writeColumnHeads(sheet, first - 1, "D", ["<trade", ...states, "all"]);
  for (let row = first; row <= last; row++) {
    const trade = onSheet(sheets.basis, `${listPlaces.Trades}${row - first + listPlaces.first}`);
    sheet.formula(`D${row}`, `IF(${trade}="","",${trade})`, looks.label);
    states.forEach((_, index) => {
      const letter = "EFGH".charAt(index);
      const counted = countOfBoth([`${table}[trade]`, `$D${row}`], [`${table}[state]`, `${letter}$${first - 1}`]);
      sheet.formula(`${letter}${row}`, `IF($D${row}="","",${counted})`, count);
    });
    sheet.formula(`I${row}`, `IF($D${row}="","",SUM(E${row}:H${row}))`, count);
  }
  const total = last + 1;
  sheet.put(`D${total}`, "all", style({ align: "left" }, sum));
  for (const letter of "EFGHI") sheet.formula(`${letter}${total}`, `SUM(${letter}${first}:${letter}${last})`, sum);
  sheet.put(`D${total + 1}`, "Rows that no count above holds: trade or state missing or unknown", looks.note);
  sheet.merge(`D${total + 1}:H${total + 1}`);
  sheet.formula(`I${total + 1}`, `COUNTA(${table}[place])-I${total}`, count);
  sheet.when(`I${total + 1}`, `I${total + 1}<>0`, { font: { bold: true, color: { rgb: palette.fail } } });
  countByWay(sheet, table);
  countBySeverity(sheet, table);
}

function countByWay(sheet: Sheet, table: string): void {
  writeHeading(sheet, first - 2, ["K", "L"], "How they were found");
  writeColumnHeads(sheet, first - 1, "K", ["<found by", "leaks"]);
  for (let index = 0; index < 5; index++) {
    const row = first + index;
    const way = onSheet(sheets.basis, `${listPlaces.WaysOfFinding}${index + listPlaces.first}`);
    sheet.formula(`K${row}`, `IF(${way}="","",${way})`, looks.label);
    sheet.formula(`L${row}`, `IF(K${row}="","",${countOf(`${table}[found by]`, `K${row}`)})`, count);
  }
}

function countBySeverity(sheet: Sheet, table: string): void {
  const at = first + 7;
  writeHeading(sheet, at - 1, ["K", "L"], "Still to be retested");
  severities.forEach((severity, index) => {
    const row = at + index;
    sheet.put(`K${row}`, severity, looks.label);
    const inState = (state: string) =>
      countOfBoth([`${table}[severity]`, `K${row}`], [`${table}[state]`, `"${state}"`]);
    sheet.formula(`L${row}`, `${inState("open")}+${inState("repaired")}`, count);
  });
  sheet.when(`K${at + 2}:L${at + 2}`, `$L$${at + 2}>0`, { font: { bold: true, color: { rgb: palette.fail } } });
}

/** Where the Overview finds how many leaks there are in all, and how many in the first state, open. */
export const countPlaces = {
  all: onSheet(sheets.register, `I${last + 1}`),
  open: onSheet(sheets.register, `E${last + 1}`),
  repaired: onSheet(sheets.register, `F${last + 1}`),
  done: onSheet(sheets.register, `G${last + 1}:H${last + 1}`),
} as const;

const table = { heads: 25, first: 26, last: 65 } as const;
const name = "Leaks";

type Field = keyof Leak;

/** The table's columns: its head, what of a leak stands in it, and how. */
const fields: readonly (readonly [head: string, field: Field, format?: string])[] = [
  ["no", "no", decimals(0)],
  ["found", "found", shortDay],
  ["place", "place"],
  ["element", "element"],
  ["trade", "trade"],
  ["found by", "foundBy"],
  ["direction", "direction"],
  ["severity", "severity"],
  ["action", "action"],
  ["by whom", "byWhom"],
  ["retest", "retest", shortDay],
  ["state", "state"],
];

function writeLeakTable(sheet: Sheet): void {
  const { heads, first, last } = table;
  writeHeading(sheet, heads - 1, ["B", "M"], "Leaks");
  writeColumnHeads(
    sheet,
    heads,
    "B",
    fields.map(([head]) => `<${head}`),
  );
  fields.forEach(([, field, format], offset) => {
    for (let row = first; row <= last; row++) {
      const look = style({ shrink: true }, input(format, "left"));
      sheet.put(addressOf(row - 1, columnOf("B") + offset), leaks[row - first]?.[field] ?? null, look);
    }
  });
  sheet.table(
    name,
    `B${heads}:M${last}`,
    fields.map(([head]) => head),
  );
  const body = `B${first}:M${last}`;
  const done = `OR($M${first}="retested",$M${first}="accepted")`;
  sheet.when(body, done, { font: { color: { rgb: palette.grey } } });
  sheet.when(body, `AND($I${first}="large",NOT(${done}),$D${first}<>"")`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
}

function addRules(sheet: Sheet): void {
  const { first, last } = table;
  const column = (field: Field) => {
    const letter = lettersOf(columnOf("B") + fields.findIndex(([, one]) => one === field));
    return `${letter}${first}:${letter}${last}`;
  };
  sheet.validate(
    wholeBetween(column("no"), 1, 9999, "Number", "Each number once; Tape and retest finds the leak by it."),
    day(column("found"), "Found", "The day on which it was found."),
    text(column("place"), "Place", "So that someone else finds it again.", 60),
    fromList(column("element"), "Elements", "Element", "From the list on the sheet House and instruments."),
    fromList(column("trade"), "Trades", "Trade", "Who has to mend it; from the list on House and instruments."),
    fromList(column("foundBy"), "WaysOfFinding", "Found by", "Smoke, hand, infrared or sound."),
    oneOf(
      column("direction"),
      ["depressurization", "pressurization"],
      "Direction",
      "Which way the fan blew when it was found. Some leaks open one way only.",
    ),
    oneOf(column("severity"), severities, "Severity", "By feel: large is a draught from an arm’s length."),
    text(column("action"), "Action", "What is to be done.", 80),
    text(column("byWhom"), "By whom", "Firm or person.", 40),
    day(column("retest"), "Retest", "The day on which it was tested again."),
    oneOf(column("state"), states, "State", "Open, repaired, retested under pressure, accepted by the tester."),
  );
}
