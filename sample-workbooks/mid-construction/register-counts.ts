import { onSheet } from "../blocks/address";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette, style } from "../blocks/style";
import { countOf, countOfBoth } from "../blocks/typed-cells";
import { listPlaces, tradeCount } from "./basis";
import { sheets } from "./places";

export const states = ["open", "repaired", "retested", "accepted"] as const;
export const severities = ["small", "medium", "large"] as const;

const first = 8;
const last = first + tradeCount - 1;
const sum = style({ bold: true, top: palette.petrol, align: "right" });
const count = native(decimals(0));

/** How many leaks each trade has, by their state; how they were found; and rows that no count holds. */
export function countsSection(sheet: Sheet, table: string): void {
  section(sheet, first - 2, ["D", "I"], "Leaks by trade and state");
  columnHeads(sheet, first - 1, "D", ["<trade", ...states, "all"]);
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
  byWay(sheet, table);
  bySeverity(sheet, table);
}

function byWay(sheet: Sheet, table: string): void {
  section(sheet, first - 2, ["K", "L"], "How they were found");
  columnHeads(sheet, first - 1, "K", ["<found by", "leaks"]);
  for (let index = 0; index < 5; index++) {
    const row = first + index;
    const way = onSheet(sheets.basis, `${listPlaces.WaysOfFinding}${index + listPlaces.first}`);
    sheet.formula(`K${row}`, `IF(${way}="","",${way})`, looks.label);
    sheet.formula(`L${row}`, `IF(K${row}="","",${countOf(`${table}[found by]`, `K${row}`)})`, count);
  }
}

function bySeverity(sheet: Sheet, table: string): void {
  const at = first + 7;
  section(sheet, at - 1, ["K", "L"], "Still to be retested");
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
