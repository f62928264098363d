import { section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, native, palette, style } from "../blocks/style";
import { typedTable } from "../blocks/typed-table";
import { between, oneOf, text, wholeBetween } from "../blocks/validation";
import { type Limit, limits } from "./limits";
import { metric, type Units } from "./units";

const heads = 17;

/** Rows of the limits, spare ones included. */
export const limitRows = { first: 18, last: 35 } as const;

/** The column of the table in which each property stands. */
export const limitColumns = {
  name: "B",
  quantity: "C",
  pressure: "D",
  limit: "E",
  unit: "F",
  decimals: "G",
  convention: "H",
  directions: "I",
  published: "J",
  source: "K",
  mark: "L",
} as const;

const quantities = ["air change rate", "per envelope area", "per floor area", "leakage area per envelope area"];

/** A limit in the units of the sheet, as many digits as the conversion leaves sure. */
function inUnits({ quantity, limit }: Limit, { in: unit, system }: Units): number {
  if (system === "SI" || quantity === "air change rate") return limit;
  const one = quantity === "leakage area per envelope area" ? unit.leakagePerArea : unit.perArea;
  return Number((limit / one).toPrecision(12));
}

/** The limits, all of them the user's to change; the row that is chosen stands out. */
export function limitTable(sheet: Sheet, chosen: string, units: Units = metric): void {
  const { first, last } = limitRows;
  section(sheet, heads - 2, ["B", "L"], "Limits");
  const typed = (property: keyof Limit) => (index: number) => limits[index]?.[property];
  const names = text(`B${first}:B${last}`, "Criterion", "A name of your choice; each name once.", 60);
  typedTable(sheet, {
    heads,
    left: "B",
    rows: last - first + 1,
    columns: [
      { head: "<criterion", typed: typed("name"), rule: () => names },
      {
        head: "<quantity",
        typed: typed("quantity"),
        rule: (range) => oneOf(range, quantities, "Quantity", "What is limited. The unit follows."),
      },
      {
        head: "reference|pressure, Pa",
        typed: typed("pressure"),
        format: decimals(0),
        rule: (range) =>
          between(
            range,
            1,
            100,
            "Reference pressure, Pa",
            "The pressure at which the limit holds. Leakage areas are given at 10 Pa.",
          ),
      },
      {
        head: "limit",
        typed: (index) => (limits[index] ? inUnits(limits[index], units) : null),
        format: "0.0##",
        rule: (range) =>
          between(range, 0.0001, 1000, "Limit", "The largest result that passes, in the unit beside it."),
      },
      {
        head: "<<unit",
        formula: (row) =>
          `IF(C${row}="air change rate","1/h",IF(C${row}="leakage area per envelope area","${units.leakagePerArea}",IF(C${row}="","","${units.perArea}")))`,
        look: style({ size: 8, colour: palette.grey, indent: 1 }, native(undefined, "left")),
      },
      {
        head: "^decimals",
        align: "right",
        format: decimals(0),
        rule: (range) =>
          wholeBetween(
            range,
            0,
            4,
            "Decimals",
            "Blank: compare unrounded. A number: round once to so many decimals first.",
          ),
      },
      {
        head: "<volume|convention",
        typed: typed("convention"),
        rule: (range) =>
          oneOf(
            range,
            ["room by room", "whole internal", "not used"],
            "Volume convention",
            "Which volume the limit means; not used where it is per area.",
          ),
      },
      {
        head: "<directions",
        typed: typed("directions"),
        rule: (range) =>
          oneOf(
            range,
            ["both", "either", "depressurization"],
            "Directions",
            "Both: the mean of two. Either: one is enough, two are averaged.",
          ),
      },
      { head: "<as published", typed: typed("published"), rule: sourceRule },
      { head: "<source", typed: typed("source"), rule: sourceRule },
      {
        head: "<mark",
        typed: typed("mark"),
        rule: (range) =>
          oneOf(range, ["C", "M"], "Mark", "C: read in a published text. M: from memory, check your own copy."),
      },
    ],
  });
  sheet.when(`B${first}:L${last}`, `AND($B${first}<>"",$B${first}=${chosen})`, {
    font: { bold: true, color: { rgb: palette.petrol } },
  });
}

function sourceRule(range: string) {
  return text(range, "Source", "The words and the document of the limit, with its edition.", 120);
}
