import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, style } from "../blocks/style";
import { columnOfHouses as column } from "./places";

/** How many reports the list holds. */
export const listLength = 40;

/** The reports with the most points, with what makes them worth a look. */
export function firstToLookAt(sheet: Sheet, at: number): void {
  section(sheet, at - 1, ["B", "K"], "To look at first");
  columnHeads(sheet, at, "B", ["<report, tester", "points", "n50 reported", "recomputed, 1/h", "", "<why"]);
  sheet.paint(`H${at}:K${at}`, looks.columnHeadLeft);
  for (let index = 1; index <= listLength; index += 1) {
    const row = at + index;
    const found = `MATCH(LARGE(${column("order")},${index}),${column("order")},0)`;
    const pick = (wanted: Parameters<typeof column>[0]) =>
      `IF(COUNT(${column("order")})<${index},"",INDEX(${column(wanted)},${found}))`;
    sheet.formula(
      `B${row}`,
      `IF(COUNT(${column("order")})<${index},"",INDEX(${column("id")},${found})&"   "&INDEX(${column("tester")},${found}))`,
      native(undefined, "left"),
    );
    sheet.formula(`C${row}`, pick("score"), native("0"));
    sheet.formula(`D${row}`, pick("reported"), native("0.00"));
    sheet.formula(`E${row}`, pick("n50"), native(decimals(3)));
    const reasons = `IF(COUNT(${column("order")})<${index},"",INDEX(${column("why")},${found})&IF(INDEX(${column("notMet")},${found})="",""," ("&INDEX(${column("notMet")},${found})&")"))`;
    sheet
      .formula(`G${row}`, reasons, style({ shrink: true, size: 8 }, native(undefined, "left")))
      .merge(`G${row}:K${row}`);
  }
}
