import type { Check } from "../review";
import { formatCount, formatList } from "../../words";

/** Cells behind a verdict or a result that give another value on another day. */
export const findClockResults: Check = ({ view, isInChain }) => {
  const cells = view.evaluation.cells.filter(
    (cell) => cell.onClock === true && cell.role === "formula" && isInChain(cell),
  );
  const [first] = cells;
  if (!first) return [];
  return [
    {
      kind: "result hangs on the day",
      severity: "doubtful",
      place: first.address,
      what: `${formatCount(cells.length, "cell")} that the result rests on depend on the day or the time at which the workbook is opened (${formatList(cells.map(({ address }) => address))}).`,
      why: "A test has one result; this one can be another tomorrow, and was perhaps another yesterday.",
      todo: "Type the date of the test in, and let formulas read that cell instead of the clock.",
    },
  ];
};
