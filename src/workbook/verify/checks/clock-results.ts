import type { Check } from "../review";
import { formatCount, formatList } from "../../formatting";

/** Cells behind a verdict or a result whose value changes with the date. */
export const findClockResults: Check = ({ view, isInChain }) => {
  const cells = view.evaluation.cells.filter(
    (cell) => cell.onClock === true && cell.role === "formula" && isInChain(cell),
  );
  const [first] = cells;
  if (!first) return [];
  return [
    {
      kind: "result changes with the date",
      severity: "warning",
      place: first.address,
      what: `${formatCount(cells.length, "cell")} behind the result ${cells.length === 1 ? "depends" : "depend"} on the date or time at which the workbook is opened (${formatList(cells.map(({ address }) => address))}).`,
      why: "A test has one result; this one may differ tomorrow, and may have differed yesterday.",
      todo: "Type in the date of the test, and have formulas read that cell instead of the clock.",
    },
  ];
};
