import { ErrorValue, type CellValue, type Formula } from "../../model";

/** Whether two cells hold the same value; errors are the same by their code. */
export function sameValue(a: CellValue, b: CellValue): boolean {
  if (a instanceof ErrorValue && b instanceof ErrorValue) return a.code === b.code;
  return a === b;
}

/** Whether two formulas are the same, their array ranges included. */
export function sameFormula(a: Formula | undefined, b: Formula | undefined): boolean {
  if (!a || !b) return a === b;
  const corners = ["top", "left", "bottom", "right"] as const;
  return (
    a.text === b.text && a.dynamic === b.dynamic && corners.every((corner) => a.array?.[corner] === b.array?.[corner])
  );
}
