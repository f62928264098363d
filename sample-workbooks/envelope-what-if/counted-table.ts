import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, input, looks, native, style } from "../blocks/style";
import { countOf } from "../blocks/typed-cells";
import { fromList } from "../blocks/validation";
import { limitNames, ofLimit } from "./limits";
import { variantCount, variantRows } from "./places";
import { variants } from "./scenario";

const first = variantRows.counted;
const last = first + variantCount - 1;
const indented = style({ indent: 1 }, native(undefined, "left"));

/** The limit of each variant, and the sizes that it counts. */
export function countedTable(sheet: Sheet): void {
  section(sheet, first - 3, ["B", "P"], "Limit of each variant, and the sizes that it counts");
  const heads = ["<variant", "<criterion", "<", "<", "<quantity that is limited", "<", "<"];
  const sizes = ["holds|at, Pa", "limit", "<<unit", "volume|counted, m³", "envelope|area, m²", "floor|area, m²"];
  columnHeads(sheet, first - 1, "B", [...heads, ...sizes, "<<volume is", "<<to look into"]);
  sheet.merge(`C${first - 1}:E${first - 1}`).merge(`F${first - 1}:H${first - 1}`);
  for (let row = first; row <= last; row++) {
    const drawn = row - first + variantRows.outline;
    const criterion = `C${row}`;
    sheet.formula(`B${row}`, `IF(B${drawn}="","",B${drawn})`, looks.strong);
    sheet.put(criterion, variants[row - first]?.criterion ?? null, input(undefined, "left")).merge(`C${row}:E${row}`);
    sheet.formula(`F${row}`, ofLimit("quantity", criterion), native(undefined, "left")).merge(`F${row}:H${row}`);
    sheet.formula(`I${row}`, ofLimit("pressure", criterion), native(decimals(0)));
    sheet.formula(`J${row}`, ofLimit("limit", criterion), native("0.0##"));
    sheet.formula(`K${row}`, ofLimit("unit", criterion), looks.unit);
    const size = (planned: string, own: string) =>
      `IF(B${drawn}="","",IF(C${drawn}="corners",${planned},${own}${drawn}))`;
    const gross = size("PlanVolume", "K");
    // Where a limit counts room by room, an unknown share of partitions must not pass for none.
    const net = `IF(O${row}="room by room",IF(J${drawn}="","",IF(AND(J${drawn}>=0,J${drawn}<=40),${gross}*(1-J${drawn}/100),NA())),${gross})`;
    sheet.formula(`L${row}`, `IF(${gross}="","",${net})`, native(decimals(1)));
    sheet.formula(`M${row}`, size("PlanEnvelopeArea", "L"), native(decimals(1)));
    sheet.formula(`N${row}`, size("PlanFloorArea", "M"), native(decimals(1)));
    sheet.formula(`O${row}`, ofLimit("convention", criterion), indented);
    sheet.formula(`P${row}`, toLookInto(row, drawn), indented);
  }
  sheet.validate(
    fromList(
      `C${first}:E${last}`,
      limitNames,
      "Criterion",
      "A row of the sheet Limits, by its name; its limit follows.",
    ),
  );
}

/** What keeps a variant from being reckoned, or what a reader should know of it. */
function toLookInto(row: number, drawn: number): string {
  const several = `${countOf(`$B$${variantRows.outline}:$B$${variantRows.outline + variantCount - 1}`, `B${drawn}`)}>1`;
  return (
    [
      `IF(B${drawn}="",IF(COUNTA(C${drawn}:J${drawn},C${row})=0,"","a name is missing")`,
      `IF(${several},"the name stands twice"`,
      `IF(C${row}="","no criterion chosen"`,
      `IF(J${row}="","the sheet Limits has no such limit"`,
      `IF(AND(O${row}="room by room",J${drawn}=""),"share of partitions is missing"`,
      `IF(AND(O${row}="room by room",OR(J${drawn}<0,J${drawn}>40,AND(J${drawn}>0,J${drawn}<1))),"share of partitions: 11 for 11 %"`,
      `IF(OR(ISERROR(L${row}),ISERROR(M${row})),"sizes cannot be reckoned"`,
      `IF(OR(L${row}="",M${row}=""),"sizes are missing",""`,
    ].join(",") + ")".repeat(8)
  );
}
