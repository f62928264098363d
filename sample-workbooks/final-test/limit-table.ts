import { columnHeads, section } from "../blocks/heading";
import { palette } from "../blocks/palette";
import type { Sheet } from "../blocks/sheet";
import { decimals, native, style } from "../blocks/style";
import { between, oneOf, text, wholeBetween } from "../blocks/validation";
import { limits } from "./limits";

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

/** The limits, all of them the user's to change; the row that is chosen stands out. */
export function limitTable(sheet: Sheet, chosen: string): void {
  const { first, last } = limitRows;
  section(sheet, heads - 2, ["B", "L"], "Limits");
  const words = [
    "<criterion",
    "<quantity",
    "reference|pressure, Pa",
    "limit",
    "<<unit",
    "^decimals",
    "<volume|convention",
    "<directions",
    "<as published",
    "<source",
    "<mark",
  ];
  columnHeads(sheet, heads, "B", words);
  for (let row = first; row <= last; row++) {
    const limit = limits[row - first];
    const textCells = {
      B: limit?.name,
      C: limit?.quantity,
      H: limit?.convention,
      I: limit?.directions,
      J: limit?.published,
      K: limit?.source,
      L: limit?.mark,
    };
    for (const [letter, value] of Object.entries(textCells))
      sheet.type(`${letter}${row}`, value ?? null, undefined, "left");
    sheet
      .type(`D${row}`, limit?.pressure ?? null, decimals(0))
      .type(`E${row}`, limit?.limit ?? null, "0.0##")
      .type(`G${row}`, null, decimals(0));
    const unit = `IF(C${row}="air change rate","1/h",IF(C${row}="leakage area per envelope area","cm²/m²",IF(C${row}="","","m³/(h·m²)")))`;
    sheet.formula(`F${row}`, unit, style({ size: 8, colour: palette.grey, indent: 1 }, native(undefined, "left")));
  }
  sheet.when(`B${first}:L${last}`, `AND($B${first}<>"",$B${first}=${chosen})`, {
    font: { bold: true, color: { rgb: palette.petrol } },
  });
  sheet.validate(
    text(`B${first}:B${last}`, "Criterion", "A name of your choice; each name once.", 60),
    oneOf(`C${first}:C${last}`, quantities, "Quantity", "What is limited. The unit follows."),
    between(
      `D${first}:D${last}`,
      1,
      100,
      "Reference pressure, Pa",
      "The pressure at which the limit holds. Leakage areas are given at 10 Pa.",
    ),
    between(`E${first}:E${last}`, 0.0001, 1000, "Limit", "The largest result that passes, in the unit beside it."),
    wholeBetween(
      `G${first}:G${last}`,
      0,
      4,
      "Decimals",
      "Blank: compare unrounded. A number: round once to so many decimals first.",
    ),
    oneOf(
      `H${first}:H${last}`,
      ["room by room", "whole internal", "not used"],
      "Volume convention",
      "Which volume the limit means; not used where it is per area.",
    ),
    oneOf(
      `I${first}:I${last}`,
      ["both", "either", "depressurization"],
      "Directions",
      "Both: the mean of two. Either: one is enough, two are averaged.",
    ),
    text(`J${first}:K${last}`, "Source", "The words and the document of the limit, with its edition.", 120),
    oneOf(
      `L${first}:L${last}`,
      ["C", "M"],
      "Mark",
      "C: read in a published text. M: from memory, check your own copy.",
    ),
  );
}
