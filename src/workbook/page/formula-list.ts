import { cellAddress } from "../formula/parse/address";
import { cellText } from "./cell-text";
import { asTyped } from "../formula/parse/as-typed";
import { escaped, tag } from "./html";
import type { PageLength } from "./page-length";
import type { SheetView } from "./sheet-view";

/** More than this would be longer than the page itself. */
const most = 1500;

/** Every formula of a sheet with its value, folded away until it is asked for. */
export function formulaList(view: SheetView, length: PageLength): string {
  const { sheet, date1904 } = view;
  const formulas = [...sheet.cells.values()]
    .filter(({ formula }) => formula !== undefined)
    .sort((one, other) => one.row - other.row || one.column - other.column);
  if (formulas.length === 0) return "";
  const rows = formulas.slice(0, most).map(({ row, column, formula, format }) => {
    const cell = view.cell(row, column);
    const value = cell ? cellText(cell.value, format, date1904) : "";
    const parts =
      tag("th", { scope: "row" }, cellAddress(row, column)) +
      tag("td", {}, escaped(value)) +
      tag("td", {}, tag("code", {}, escaped(asTyped(formula?.text ?? ""))));
    return length.counted(tag("tr", {}, parts));
  });
  const more =
    formulas.length > most ? tag("p", {}, `… and ${formulas.length - most} more, in the workbook itself.`) : "";
  const name = `Formulas of ${sheet.name}`;
  return tag(
    "details",
    {},
    tag("summary", {}, `Formulas of this sheet (${formulas.length})`) +
      tag(
        "div",
        { class: "scroll", tabindex: 0, role: "region", "aria-label": name },
        tag(
          "table",
          { class: "list" },
          tag("caption", {}, escaped(name)) +
            tag(
              "thead",
              {},
              tag("tr", {}, ["Cell", "Value", "Formula"].map((head) => tag("th", { scope: "col" }, head)).join("")),
            ) +
            tag("tbody", {}, rows.join("\n")),
        ),
      ) +
      more,
  );
}
