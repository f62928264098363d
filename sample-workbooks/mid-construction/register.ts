import { addressOf, columnOf, lettersOf, onSheet } from "../blocks/address";
import { columnHeads, letterhead, pageHead, section } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, input, looks, palette, shortDay, style } from "../blocks/style";
import { day, fromList, oneOf, text, wholeBetween } from "../blocks/validation";
import { type Leak, leaks } from "./leaks";
import { footer, sheets } from "./places";
import { countsSection, severities, states } from "./register-counts";

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
  pageHead(sheet, letterhead, ["B", "M"], sheets.register, lead);
  sheet.heightOf(15, 5, table.last + 2);
  countsSection(sheet, name);
  leakTable(sheet);
  rules(sheet);
  const note =
    "Found while depressurizing: air blows in, to be felt and heard indoors. While pressurizing: smoke goes out, seen indoors as a thread, outdoors as a plume. The lists of elements, trades and ways of finding stand on the sheet House and instruments.";
  sheet.put(`B${table.last + 1}`, note, looks.note).merge(`B${table.last + 1}:M${table.last + 2}`);
  return { sheet, names: { LeakNumbers: onSheet(sheets.register, `B${table.first}:B${table.last}`) } };
}

function leakTable(sheet: Sheet): void {
  const { heads, first, last } = table;
  section(sheet, heads - 1, ["B", "M"], "Leaks");
  columnHeads(
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

function rules(sheet: Sheet): void {
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
