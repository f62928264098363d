import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native } from "../blocks/style";
import { amountColumn, componentRows } from "./component-places";
import { ofLibrary } from "./library";
import { chosen, variantColumns, variantCount, variantRows } from "./places";
import { amountPlaces, amounts, joints } from "./scenario";

const { first } = componentRows;
const amountsOf = (row: number) => `$${amountColumn(0)}${row}:$${amountColumn(variantCount - 1)}${row}`;

/** Where the joints of the first rows are, and how long they are, from perimeter and storeys. */
const jointRows: readonly (readonly [where: string, length: (perimeter: string, storeys: string) => string])[] = [
  ["Walls on the lowest floor", (perimeter) => perimeter],
  ["Walls at floors between", (perimeter, storeys) => `${perimeter}*(${storeys}-1)`],
  ["Walls to ceiling or roof", (perimeter) => perimeter],
];

/** One component: what it leaks, how much of it each variant has, what goes through it in base and variant. */
export function componentRow(sheet: Sheet, row: number): void {
  const joint = jointRows[row - first];
  const given = amounts[row - first - jointRows.length];
  if (joint) sheet.put(`B${row}`, joint[0], looks.label);
  else sheet.type(`B${row}`, amountPlaces[row - first - jointRows.length] ?? null, undefined, "left");
  sheet.type(`C${row}`, (joint ? joints[row - first] : given?.[0]) ?? null, undefined, "left");
  sheet.formula(`D${row}`, ofLibrary("unit", `C${row}`), looks.unit);
  sheet.formula(`E${row}`, ofLibrary("flow", `C${row}`), native(decimals(2)));
  for (let index = 0; index < variantCount; index++) {
    const place = `${amountColumn(index)}${row}`;
    if (joint) {
      const at = variantRows.outline + index;
      const [perimeter, storeys] = [`Variants!$N$${at}`, `Variants!$P$${at}`];
      const length = `IF(OR(${perimeter}="",${storeys}=""),"",${joint[1](perimeter, storeys)})`;
      sheet.formula(place, length, native("0.0;;"));
    } else {
      const amount = given?.[index + 1];
      sheet.type(place, amount || null, "0.0##");
    }
  }
  for (const [letter, which, share] of [
    ["N", "Base", "P"],
    ["O", "Variant", "Q"],
  ] as const) {
    const amount = `INDEX(${amountsOf(row)},${which}Index)`;
    const flow = `IF(${which}Index="","",IF(COUNT(${amount},$E${row})<2,"",${amount}*$E${row}))`;
    sheet.formula(`${letter}${row}`, flow, native("0.0;;"));
    const limit = chosen(which, variantColumns.flow);
    sheet.formula(
      `${share}${row}`,
      `IF(COUNT(${letter}${row},${limit})<2,"",${letter}${row}/${limit})`,
      native("0 %;;"),
    );
  }
  sheet.formula(`S${row}`, ofLibrary("handedLeakage", `C${row}`), native("0.0##"));
  sheet.formula(`T${row}`, ofLibrary("handedPressure", `C${row}`), native(decimals(0)));
  sheet.formula(`U${row}`, ofLibrary("exponent", `C${row}`), native("0.0###"));
}
