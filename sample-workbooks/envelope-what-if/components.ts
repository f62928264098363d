import { call } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, input, looks, native, palette, style } from "../blocks/style";
import { between, fromList, oneOf, text } from "../blocks/validation";
import { flowNames, flowPages, writeComponentFlows } from "./component-flows";
import {
  amountColumn,
  componentRows,
  countedRows,
  growsWith,
  growthSizes,
  handed,
  ofComponents,
  reckonedColumn,
} from "./component-layout";
import { footer, sheets, variantColumns, variantCount, variantRows } from "./layout";
import { libraryNames, ofLibrary } from "./library";
import { amounts, countedFor, joints } from "./scenario";

const { first, typed, last, total, outline } = componentRows;
const [check, allowed, left] = [total + 1, total + 2, total + 3];

/** What the drawings show, with the amounts of each variant; the rest of the limit is for leaks that nobody has drawn. */
export function componentsPage(): Page {
  const perVariant = Array<number>(variantCount);
  const sheet = new Sheet(
    sheets.components,
    [1.5, 20, 29, 5.5, 9.5, ...perVariant.fill(7.6), 11, 2, 10, 10, 10, ...perVariant.fill(10)],
    palette.petrol,
    {
      orientation: "landscape",
      areas: [
        `B1:${growsWith}${countedRows.note}`,
        `B${flowPages.first}:${growsWith}${flowPages.last}`,
        `B${flowPages.chart}:${growsWith}${flowPages.end}`,
      ],
      titleRows: "1:4",
      pages: 3,
      footer,
    },
  );
  const lead =
    "Amounts of each component in each variant. Lengths of the joints follow from the outlines. Choose a component from the library, or add one there.";
  writePageHead(sheet, letterhead, ["B", growsWith], "Components", lead);
  sheet
    .heightOf(13, 5, flowPages.end)
    .height(5, 5, first - 2, outline - 1)
    .height(34, first - 1)
    .height(23, countedRows.note);
  writeHeading(sheet, first - 3, ["B", growsWith], "Amounts of each variant");
  writeColumnHeads(sheet, first - 1, "B", ["<where", "<component", "<<unit", "flow of one at 50 Pa, m³/h"]);
  for (let index = 0; index < variantCount; index++) {
    const name = `IF(Variants!$B$${variantRows.outline + index}="","",Variants!$B$${variantRows.outline + index})`;
    sheet.formula(`${amountColumn(index)}${first - 1}`, name, looks.columnHead);
  }
  writeColumnHeads(sheet, first - 1, growsWith, ["<amount grows with"]);
  writeHeading(sheet, first - 3, [handed[0], handed[2]], "Handed to the add-in");
  writeColumnHeads(sheet, first - 1, handed[0], ["leakage", "at Pa", "n"]);
  const reckonedSpan = [reckonedColumn(0), reckonedColumn(variantCount - 1)] as const;
  writeHeading(sheet, first - 3, reckonedSpan, "Amounts used (not printed)");
  writeHeading(sheet, outline, reckonedSpan, "Size now, times the one counted for");
  for (let row = first; row <= last; row++) writeComponentRow(sheet, row);
  writeComponentSums(sheet);
  writeCountedFor(sheet);
  writeComponentFlows(sheet);
  addRules(sheet);
  return { sheet, names: { ComponentTotals: componentTotals, ...flowNames } };
}

/** Flow at 50 Pa of all known components, a cell a variant. */
export const componentTotals = onSheet(
  sheets.components,
  `${amountColumn(0)}${total}:${amountColumn(variantCount - 1)}${total}`,
);

/** All components of each variant in one call, checked by the rows, beside what is allowed and what is left. */
function writeComponentSums(sheet: Sheet): void {
  const sum = style({ bold: true, top: palette.petrol });
  sheet
    .put(`B${total}`, "All known components at 50 Pa, m³/h", style({ align: "left" }, sum))
    .paint(`C${total}:E${total}`, sum);
  sheet.put(`B${check}`, "Check: the sum of the rows", looks.label).paint(`C${check}:E${check}`, looks.label);
  sheet.put(`B${allowed}`, "Allowed at 50 Pa, m³/h", looks.label).paint(`C${allowed}:E${allowed}`, looks.label);
  sheet
    .put(`B${left}`, "Left for unknown leaks, m³/h", style({ bold: true }, looks.label))
    .paint(`C${left}:E${left}`, looks.label);
  for (let index = 0; index < variantCount; index++) {
    const letter = amountColumn(index);
    const own = ofComponents(reckonedColumn(index));
    // Text counts as nothing in a sum: what is no number goes to the add-in, which says so.
    const at = variantRows.outline + index;
    const nothing = `AND(SUM(${own})=0,COUNT(${own})=SUMPRODUCT((${own}<>"")*1))`;
    // Without perimeter and storeys the joints have no length, and a sum would leave them out.
    const none = `IF(OR(Variants!N${at}="",Variants!P${at}=""),TRUE,${nothing})`;
    const flow = call("COMPONENTLEAKAGE", own, ...handed.map(ofComponents), "50");
    sheet.addIn(`${letter}${total}`, `IF(${none},"",${flow})`, fromAddIn(decimals(1)));
    const rows = `SUMPRODUCT(${own},${ofComponents("E")})`;
    const agrees = `IF(ABS(${rows}-${letter}${total})<=0.000000001*${letter}${total},"agrees","differs")`;
    sheet.formula(`${letter}${check}`, `IF(${letter}${total}="","",${agrees})`, native());
    const ofVariant = (column: string) => {
      const place = `Variants!${column}${variantRows.allowed + index}`;
      return `IF(${place}="","",${place})`;
    };
    sheet.formula(`${letter}${allowed}`, ofVariant("C"), native(decimals(1)));
    sheet.formula(`${letter}${left}`, ofVariant("N"), style({ bold: true }, native(decimals(1))));
  }
  const red = { font: { color: { rgb: palette.fail } } };
  const [from, to] = [amountColumn(0), amountColumn(variantCount - 1)];
  sheet.when(`${from}${left}:${to}${left}`, `AND(ISNUMBER(${from}${left}),${from}${left}<0)`, red);
  sheet.when(`${from}${check}:${to}${check}`, `${from}${check}="differs"`, red);
  sheet.put(
    `B${left + 1}`,
    "A list of components is never complete: sockets, ducts, cracks and workmanship are in none of its rows. What is left over is what they may leak together.",
    looks.note,
  );
  sheet.merge(`B${left + 1}:${growsWith}${left + 1}`);
}

/** Where the joints of the first rows are, and how long they are, from perimeter and storeys. */
const jointRows: readonly (readonly [where: string, length: (perimeter: string, storeys: string) => string])[] = [
  ["Walls on the lowest floor", (perimeter) => perimeter],
  ["Walls at floors between", (perimeter, storeys) => `${perimeter}*(${storeys}-1)`],
  ["Walls to ceiling or roof", (perimeter) => perimeter],
];

/** One component: what it leaks, how much of it each variant has, and what that grows with. */
function writeComponentRow(sheet: Sheet, row: number): void {
  const joint = jointRows[row - first];
  const given = amounts[row - typed];
  if (joint) sheet.put(`B${row}`, joint[0], looks.label);
  else sheet.type(`B${row}`, given?.where ?? null, undefined, "left");
  sheet.type(`C${row}`, (joint ? joints[row - first] : given?.component) ?? null, undefined, "left");
  sheet.formula(`D${row}`, ofLibrary("unit", `C${row}`), looks.unit);
  sheet.formula(`E${row}`, ofLibrary("flow", `C${row}`), native(decimals(2)));
  for (let index = 0; index < variantCount; index++) {
    const place = `${amountColumn(index)}${row}`;
    if (joint) {
      const at = variantRows.outline + index;
      const [perimeter, storeys] = [`Variants!$N$${at}`, `Variants!$P$${at}`];
      const length = `IF(OR(${perimeter}="",${storeys}=""),"",${joint[1](perimeter, storeys)})`;
      sheet.formula(place, length, native("0.0;;"));
    } else sheet.type(place, given?.amounts[index] || null, "0.0##");
  }
  if (joint) sheet.put(`${growsWith}${row}`, "perimeter", looks.unit);
  else sheet.type(`${growsWith}${row}`, given?.growsWith ?? null, undefined, "left");
  const [leakage, pressure, exponent] = handed;
  sheet.formula(`${leakage}${row}`, ofLibrary("handedLeakage", `C${row}`), native("0.0##"));
  sheet.formula(`${pressure}${row}`, ofLibrary("handedPressure", `C${row}`), native(decimals(0)));
  sheet.formula(`${exponent}${row}`, ofLibrary("exponent", `C${row}`), native("0.0###"));
}

function addRules(sheet: Sheet): void {
  sheet.validate(
    text(`B${typed}:B${last}`, "Where", "A word on where the component is, for your own use.", 60),
    fromList(`C${first}:C${last}`, libraryNames, "Component", "A row of the sheet Library, by its name."),
    between(
      `${amountColumn(0)}${typed}:${amountColumn(variantCount - 1)}${last}`,
      0,
      100000,
      "Amount",
      "Area, length or number, in the unit of the row. Blank or 0: none of it in this variant.",
    ),
    oneOf(
      `${growsWith}${typed}:${growsWith}${last}`,
      [...growthSizes, "fixed"],
      "Amount grows with",
      "The size with which the amount grows where the outline is larger than the one it was counted for. Fixed: with none. Blank: not known, look again.",
    ),
  );
}

const sizeRow = (index: number) => countedRows.first + index;

/** The size of a variant as its outline stands now. */
const sizesNow = [variantColumns.floorArea, variantColumns.perimeter, variantColumns.envelopeArea] as const;

/** Two outlines are the same where their sizes differ by no more than this share: amounts are not counted more closely. */
const sameWithin = 0.02;

/** The outline for which the amounts were counted; where the variant has another one now, amounts grow with it or are to be looked at. */
function writeCountedFor(sheet: Sheet): void {
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
