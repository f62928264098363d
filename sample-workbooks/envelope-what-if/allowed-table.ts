import { call } from "../blocks/add-in";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, style } from "../blocks/style";
import { componentTotals } from "./component-places";
import { variantCount, variantRows } from "./places";

const first = variantRows.allowed;
const settingsColumns = ["R", "S"] as const;
const settingsRows = 4;

/** What each limit allows, in every quantity, and what the known components take of it. */
export function allowedTable(sheet: Sheet, exponentAt: string): void {
  section(sheet, first - 3, ["B", "P"], "What each variant may leak; what its known components take of it");
  columnHeads(sheet, first - 1, "B", [
    "<variant",
    "flow at|50 Pa, m³/h",
    "at limit’s|pressure",
    "n50|1/h",
    "qE50|m³/(h·m²)",
    "qF50|m³/(h·m²)",
    "area, 4 Pa|Cd 1, cm²",
    "10 Pa|Cd 1, cm²",
    "10 Pa|0.611, cm²",
    "4 Pa, per m²|cm²/m²",
    "known at|50 Pa, m³/h",
    "share|taken",
    "left over|m³/h",
    "left as one|hole, cm²",
    "<<in plain words",
  ]);
  section(sheet, variantRows.outline - 3, settingsColumns, "Handed to the add-in (not printed)");
  for (let index = 0; index < variantCount; index++) variantRow(sheet, index, exponentAt);
  const last = first + variantCount - 1;
  sheet.when(`B${first}:P${last}`, `AND(ISNUMBER($N${first}),$N${first}<0)`, {
    font: { color: { rgb: palette.fail } },
  });
  sheet.put(
    `B${last + 1}`,
    "Leakage areas by their definitions: effective at 4 Pa with discharge coefficient 1, ISO 9972 at 10 Pa with 1, equivalent at 10 Pa with 0.611. One hole: the opening that one could find, at 50 Pa with 0.6. " +
      "All flows are at reference conditions, 20 °C and 101 325 Pa.",
    looks.note,
  );
  sheet.merge(`B${last + 1}:P${last + 2}`);
}

function variantRow(sheet: Sheet, index: number, exponentAt: string): void {
  const row = first + index;
  const counted = variantRows.counted + index;
  const at = variantRows.outline + index * settingsRows;
  const [label, value] = settingsColumns;
  const leakageArea = `F${counted}="leakage area per envelope area"`;
  const settings = [
    // A blank row still names a quantity, so that it stays blank instead of asking for one.
    ["quantity", `IF(F${counted}="","air change rate",F${counted})`],
    ["reference pressure", `IF(I${counted}="","",I${counted})`],
    ["leakage area definition", `IF(${leakageArea},IF(I${counted}=4,"effective 4 Pa","equivalent 10 Pa"),"")`],
    ["exponent", `IF($${exponentAt.replace(/(\d+)/, "$$$1")}="","",$${exponentAt.replace(/(\d+)/, "$$$1")})`],
  ] as const;
  settings.forEach(([name, formula], offset) => {
    sheet
      .put(`${label}${at + offset}`, name, looks.label)
      .formula(`${value}${at + offset}`, formula, native(undefined, "left"));
  });
  sheet.formula(`B${row}`, `IF(B${counted}="","",B${counted})`, looks.strong);
  const block = `$${label}$${at}:$${value}$${at + settingsRows - 1}`;
  const allowed = call("ALLOWEDLEAKAGE", `J${counted}`, block, `L${counted}`, `M${counted}`, `N${counted}`);
  const formats = [1, 1, 3, 3, 3, 1, 1, 1].map(decimals);
  sheet.addIn(`C${row}:J${row}`, allowed, (_, column) => fromAddIn(formats[column]));
  const known = `INDEX(${componentTotals},${index + 1})`;
  const numbers = (cells: string, count: number, formula: string) => `IF(COUNT(${cells})<${count},"",${formula})`;
  sheet.formula(`K${row}`, numbers(`H${row},M${counted}`, 2, `H${row}/M${counted}`), native(decimals(2)));
  sheet.formula(`L${row}`, `IF(B${row}="","",${known})`, native(decimals(1)));
  sheet.formula(`M${row}`, numbers(`C${row},L${row}`, 2, `L${row}/C${row}`), native("0 %"));
  sheet.formula(
    `N${row}`,
    numbers(`C${row},L${row}`, 2, `C${row}-L${row}`),
    style({ bold: true }, native(decimals(1))),
  );
  sheet.formula(`O${row}`, numbers(`N${row}`, 1, `IF(N${row}>0,N${row}/HoleFlow,0)`), native(decimals(0)));
  const words = `IF(N${row}<0,"known components exceed the limit",IF(M${row}>0.8,"little left for unknown leaks","room for unknown leaks"))`;
  sheet.formula(`P${row}`, numbers(`N${row}`, 1, words), style({ indent: 1 }, native(undefined, "left")));
}
