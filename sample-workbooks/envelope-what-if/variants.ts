import { onSheet } from "../blocks/address";
import { letterhead, pageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, input, looks, palette } from "../blocks/style";
import { between } from "../blocks/validation";
import { allowedTable } from "./allowed-table";
import { countedTable } from "./counted-table";
import { outlineTable } from "./outline-table";
import { footer, sheets, variantCount, variantRows } from "./places";
import { exponent } from "./scenario";

/** Where the exponent stands that carries leakage from one pressure to another. */
const exponentAt = "C5";

/** One row a variant in three tables: its outline, what its limit counts, what it may leak. */
export function variantsPage(): Page {
  const last = variantRows.allowed + variantCount + 2;
  const sheet = new Sheet(
    sheets.variants,
    [1.5, 22, 10, 9, 9, 9, 9.5, 10.5, 9, 10.5, 10.5, 10.5, 10.5, 10.5, 13, 30, 2, 26, 28],
    palette.copper,
    { orientation: "landscape", areas: [`B1:P${last}`], pages: 1, titleRows: "1:4", footer },
  );
  const lead =
    "The house in several forms, side by side: another outline, another limit, other components. Each name once; spare rows stay blank.";
  pageHead(sheet, letterhead, ["B", "P"], "Variants", lead);
  sheet.heightOf(14.5, 5, last).height(26, variantRows.outline - 3);
  sheet.put("B5", "Exponent n of leaks", looks.label);
  sheet.put(exponentAt, exponent, input(decimals(2)));
  sheet.put(
    "D5",
    "0.65 until a test has measured it (ANSI/RESNET/ICC 380, one-point test, M). Among houses it scatters by about 0.06.",
    { ...looks.note, alignment: { vertical: "center", indent: 1 } },
  );
  sheet.merge("D5:P5");
  sheet.validate(between(exponentAt, 0.5, 1, "Exponent n", "How leakage grows with pressure; 0.5 to 1."));
  outlineTable(sheet);
  countedTable(sheet);
  allowedTable(sheet, exponentAt);
  return { sheet, names: { Exponent: onSheet(sheets.variants, exponentAt) } };
}
