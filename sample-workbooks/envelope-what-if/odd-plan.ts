import { onSheet } from "../blocks/address";
import { columnHeads, letterhead, pageHead, section } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { looks, palette, style } from "../blocks/style";
import { footer, sheets } from "./places";
import { at, columnsOf, corners, results, storeys } from "./plan-places";
import { planSizes, storeysTogether } from "./plan-sizes";
import { planStorey } from "./plan-storey";

/** A house that is no rectangle: storeys by their corners. A variant takes its sizes from here where it says "corners". */
export function oddPlanPage(): Page {
  const sheet = new Sheet(sheets.plan, [1.5, 28, ...Array<number>(9).fill(8.5)], palette.petrol, {
    orientation: "portrait",
    areas: [`B1:K${results.storeys + 4}`],
    pages: 1,
    footer,
  });
  const lead = "Inner corners of each storey, going round once. A storey that the house does not have stays blank.";
  pageHead(sheet, letterhead, ["B", "K"], "Odd plan", lead);
  sheet.heightOf(16, 5, results.storeys + 4);
  section(sheet, 5, ["B", "K"], "Outlines, corner after corner");
  storeys.forEach((name, index) => sheet.put(`${columnsOf(index)[0]}6`, name, looks.group));
  columnHeads(sheet, 7, "B", ["<corner", ...storeys.flatMap(() => ["x, m", "y, m", "side, m"])]);
  for (let row = corners.first; row <= corners.last; row++)
    sheet.put(`B${row}`, row - corners.first + 1, style({ align: "left" }, looks.label));
  storeys.forEach((_, index) => planStorey(sheet, index));
  for (const [row, label] of [
    [at.area, "Area inside the outline, m²"],
    [at.perimeter, "Perimeter, m"],
    [at.height, "Height to the next floor or the ceiling, m"],
    [at.volume, "Volume, m³"],
    [at.walls, "Walls, m²"],
  ] as const)
    sheet.put(`B${row}`, label, looks.label).paint(`C${row}:K${row}`, looks.label);
  storeysTogether(sheet);
  planSizes(sheet);
  const cell = (row: number) => onSheet(sheets.plan, `F${row}`);
  return {
    sheet,
    names: {
      PlanVolume: cell(results.volume),
      PlanEnvelopeArea: cell(results.envelope),
      PlanFloorArea: cell(results.floor),
      PlanPerimeter: cell(results.perimeter),
      PlanHeight: cell(results.height),
      PlanStoreys: cell(results.storeys),
    },
  };
}
