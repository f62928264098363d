import { writeHeading } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, input, looks, native, palette, style } from "../blocks/style";
import { between } from "../blocks/validation";
import { amountColumn, componentRows, countedRows, growsWith, growthSizes, reckonedColumn } from "./component-layout";
import { variantColumns, variantCount } from "./layout";
import { countedFor } from "./scenario";

const { first, typed, last, outline } = componentRows;
const sizeRow = (index: number) => countedRows.first + index;

/** The size of a variant as its outline stands now. */
const sizesNow = [variantColumns.floorArea, variantColumns.perimeter, variantColumns.envelopeArea] as const;

/** Two outlines are the same where their sizes differ by no more than this share: amounts are not counted more closely. */
const sameWithin = 0.02;

/** The outline for which the amounts were counted; where the variant has another one now, amounts grow with it or are to be looked at. */
export function writeCountedFor(sheet: Sheet): void {
  writeHeading(sheet, outline, ["B", growsWith], "Outline for which the amounts were counted");
  growthSizes.forEach((size, index) => {
    const row = sizeRow(index);
    const unit = size === "perimeter" ? "m" : "m²";
    sheet.put(`B${row}`, `Counted for this ${size}, ${unit}`, looks.label).paint(`C${row}:E${row}`, looks.label);
    for (let variant = 0; variant < variantCount; variant++)
      sheet.put(`${amountColumn(variant)}${row}`, countedFor[variant]?.[index] ?? null, input("0.0#"));
  });
  sheet
    .put(`B${countedRows.state}`, "Amounts against the outline as it is now", looks.label)
    .paint(`C${countedRows.state}:E${countedRows.state}`, looks.label);
  for (let variant = 0; variant < variantCount; variant++) writeVariant(sheet, variant);
  const states = `${amountColumn(0)}${countedRows.state}:${amountColumn(variantCount - 1)}${countedRows.state}`;
  sheet.when(states, `${amountColumn(0)}${countedRows.state}="look again"`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
  sheet
    .put(
      `B${countedRows.note}`,
      "Lengths of the joints follow the outline as it is. A counted amount grows with the size named beside it, from the outline typed here to the one on the sheet Variants; “fixed” stays as it is. " +
        "Where nothing is named the amount stays too, and the words say “look again” as soon as a size differs by more than 2 %.",
      looks.note,
    )
    .merge(`B${countedRows.note}:${growsWith}${countedRows.note}`);
  sheet.validate(
    between(
      `${amountColumn(0)}${countedRows.first}:${amountColumn(variantCount - 1)}${countedRows.last}`,
      1,
      1_000_000,
      "Counted for",
      "Size of the outline on the drawing from which the amounts were taken: see the sheet Variants. Blank: not known.",
    ),
  );
}

/** Whether a variant's amounts fit, how far its outline has grown, and the amounts that it is reckoned with. */
function writeVariant(sheet: Sheet, variant: number): void {
  const [amounts, reckoned] = [amountColumn(variant), reckonedColumn(variant)];
  const sizes = `${amounts}${countedRows.first}:${amounts}${countedRows.last}`;
  const growths = `${reckoned}${countedRows.first}:${reckoned}${countedRows.last}`;
  growthSizes.forEach((_, index) => {
    const row = sizeRow(index);
    const now = `INDEX(${sizesNow[index] ?? ""},${variant + 1})`;
    // A size typed as text is an error here, and "look again" in the row of words.
    const growth = `IF(OR(${now}="",${amounts}${row}=""),"",${now}/${amounts}${row})`;
    sheet.formula(`${reckoned}${row}`, growth, native("0.000"));
  });
  const own = `${amounts}$${typed}:${amounts}$${last}`;
  const isCounted = `(${own}<>"")*(${own}<>0)`;
  const unnamed = `SUMPRODUCT(${isCounted}*($${growsWith}$${typed}:$${growsWith}$${last}=""))`;
  const isSame = `AND(COUNTIF(${growths},">${1 + sameWithin}")=0,COUNTIF(${growths},"<${1 - sameWithin}")=0)`;
  const state = [
    `IF(SUMPRODUCT(${isCounted})=0,""`,
    `IF(COUNTA(${sizes})=0,"unknown"`,
    `IF(COUNTA(${sizes})<>COUNT(${sizes}),"look again"`,
    `IF(${isSame},"fit"`,
    `IF(${unnamed}>0,"look again","grown"`,
  ].join(",");
  const { state: stateRow } = countedRows;
  sheet.formula(`${amounts}${stateRow}`, state + ")".repeat(5), style({ size: 8 }, native()));
  const known = `COUNTIF(${growths},">${1 + sameWithin}")>0`;
  sheet.formula(`${reckoned}${stateRow}`, `IF(${known},"a smaller outline","another outline")`, looks.unit);
  for (let row = first; row <= last; row++) {
    const [amount, size] = [`${amounts}${row}`, `$${growsWith}${row}`];
    const growth = growthSizes.reduceRight(
      (otherwise, name, index) => `IF(${size}="${name}",${reckoned}$${sizeRow(index)},${otherwise})`,
      '""',
    );
    // What is no number goes on as it stands: the add-in says so.
    const grown = `IF(ISNUMBER(${amount}),${amount}*IF(${growth}="",1,${growth}),${amount})`;
    const asTyped = row < typed ? amount : grown;
    sheet.formula(`${reckoned}${row}`, `IF(${amount}="","",${asTyped})`, native(decimals(2)));
  }
  sheet.formula(
    `${reckoned}${first - 1}`,
    `INDEX(${variantColumns.name},${variant + 1})&""`,
    style({ size: 8 }, looks.columnHead),
  );
}
