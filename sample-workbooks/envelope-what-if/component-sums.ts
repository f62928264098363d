import { call } from "../blocks/add-in";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, style } from "../blocks/style";
import { amountColumn, componentRows } from "./component-places";
import { chosen, variantColumns, variantCount, variantRows } from "./places";

const { first, last, total } = componentRows;
const [check, allowed, left] = [total + 1, total + 2, total + 3];

/** Last row of the sums, their note not counted. */
export const lastSum = left;

/** All components of each variant in one call, checked by the rows, beside what is allowed and what is left. */
export function componentSums(sheet: Sheet): void {
  const sum = style({ bold: true, top: palette.petrol });
  sheet
    .put(`B${total}`, "All known components at 50 Pa, m³/h", style({ align: "left" }, sum))
    .paint(`C${total}:E${total}`, sum);
  sheet.put(`B${check}`, "Check: the sum of the rows", looks.label).paint(`C${check}:E${check}`, looks.label);
  sheet.put(`B${allowed}`, "Allowed at 50 Pa, m³/h", looks.label).paint(`C${allowed}:E${allowed}`, looks.label);
  sheet
    .put(`B${left}`, "Left for unknown leaks, m³/h", style({ bold: true }, looks.label))
    .paint(`C${left}:E${left}`, looks.label);
  const range = (letter: string) => `$${letter}$${first}:$${letter}$${last}`;
  for (let index = 0; index < variantCount; index++) {
    const letter = amountColumn(index);
    const own = range(letter);
    // Text counts as nothing in a sum: what is no number goes to the add-in, which says so.
    const outline = variantRows.outline + index;
    const nothing = `AND(SUM(${own})=0,COUNT(${own})=SUMPRODUCT((${own}<>"")*1))`;
    // Without perimeter and storeys the joints have no length, and a sum would leave them out.
    const none = `IF(OR(Variants!N${outline}="",Variants!P${outline}=""),TRUE,${nothing})`;
    const flow = call("COMPONENTLEAKAGE", own, range("S"), range("T"), range("U"), "50");
    sheet.addIn(`${letter}${total}`, `IF(${none},"",${flow})`, fromAddIn(decimals(1)));
    const rows = `SUMPRODUCT(${own},${range("E")})`;
    const agrees = `IF(ABS(${rows}-${letter}${total})<=0.000000001*${letter}${total},"agrees","differs")`;
    sheet.formula(`${letter}${check}`, `IF(${letter}${total}="","",${agrees})`, native());
    const at = variantRows.allowed + index;
    sheet.formula(`${letter}${allowed}`, `IF(Variants!C${at}="","",Variants!C${at})`, native(decimals(1)));
    sheet.formula(
      `${letter}${left}`,
      `IF(Variants!N${at}="","",Variants!N${at})`,
      style({ bold: true }, native(decimals(1))),
    );
  }
  const limit = (which: "Base" | "Variant") => chosen(which, variantColumns.flow);
  for (const [letter, which, share] of [
    ["N", "Base", "P"],
    ["O", "Variant", "Q"],
  ] as const) {
    const all = chosen(which, variantColumns.known);
    sheet.formula(`${letter}${total}`, all, style({ bold: true, top: palette.petrol }, native(decimals(1))));
    const part = `IF(COUNT(${letter}${total},${limit(which)})<2,"",${letter}${total}/${limit(which)})`;
    sheet.formula(`${share}${total}`, part, style({ bold: true, top: palette.petrol }, native("0 %")));
    sheet.formula(`${letter}${allowed}`, limit(which), native(decimals(1)));
    sheet.formula(`${letter}${left}`, chosen(which, variantColumns.left), style({ bold: true }, native(decimals(1))));
  }
  const red = { font: { color: { rgb: palette.fail } } };
  sheet.when(`F${left}:O${left}`, `AND(ISNUMBER(F${left}),F${left}<0)`, red);
  sheet.when(`F${check}:M${check}`, `F${check}="differs"`, red);
  sheet.put(
    `B${left + 1}`,
    "A list of components is never complete: sockets, ducts, cracks and workmanship are in none of its rows. What is left over is what they may leak together.",
    looks.note,
  );
  sheet.merge(`B${left + 1}:Q${left + 1}`);
}
