import { ErrorValue, type CellValue } from "../../model";
import { placeKey } from "../../book/area";
import type { Check } from "../review";
import { formatCount, formatCellValue } from "../../formatting";

/** Cells whose value depends on how the version of Excel passes blank cells to the add-in. */
export const findBlankCells: Check = ({ view, withZeros }) => {
  const differing = view.evaluation.cells.filter(({ sheet, row, column, outcome }) => {
    const other = withZeros.outcome(sheet, row, column);
    return outcome.evaluated && other?.evaluated === true && !isSame(outcome.value, other.value);
  });
  const keys = new Set(differing.map(placeKey));
  const first = differing.find((cell) => {
    const source = view.findOwner(cell) ?? cell;
    return !view
      .listPrecedents(source)
      .some((area) =>
        view.listCells(area).some((place) => keys.has(placeKey(place)) && view.findOwner(place) !== source),
      );
  });
  if (!first?.outcome.evaluated) return [];
  const other = withZeros.outcome(first.sheet, first.row, first.column);
  return [
    {
      kind: "blank cells matter",
      severity: "error",
      place: first.address,
      what: `With blanks passed as blanks it is ${formatCellValue(first.outcome.value)}, as zeros ${formatCellValue(other?.evaluated ? other.value : null)}; ${formatCount(differing.length, "cell")} affected.`,
      why: "Some versions of Excel pass a blank cell to an add-in as 0, so a blank baseline would count as a reading of 0 Pa.",
      todo: 'Pass ranges that contain blank cells as IF(range="","",range).',
    },
  ];
};

function isSame(one: CellValue, other: CellValue): boolean {
  if (one instanceof ErrorValue && other instanceof ErrorValue) return one.code === other.code;
  if (typeof one === "number" && typeof other === "number") return Math.abs(one - other) <= 1e-9 * Math.abs(one);
  return (one ?? "") === (other ?? "");
}
