import { type NotEvaluated, toRefusal } from "../formula/values/refusal";
import { parseFormula } from "../formula/parse/parse";
import { toStoredForm } from "../formula/parse/formula-text";
import { Matrix, type Scalar, type Value } from "../formula/values/value";
import { ErrorValue } from "../model";
import type { Place } from "./area";
import type { Inspector } from "./inspector";

/** What a formula would give in a cell: rows of values, or why it cannot be evaluated here. */
export type FormulaPreview = { readonly rows: readonly (readonly Scalar[])[] } | { readonly reason: string };

/** Evaluates a formula as typed, with its "=", as if it were in a cell; the workbook is not changed. */
export function previewFormula(view: Inspector, place: Place, typed: string): FormulaPreview {
  const { root } = parseFormula(toStoredForm(typed), place.row, place.column);
  let refused: NotEvaluated | undefined;
  const value = view.tryEvaluation((frame): Value => {
    try {
      return view.interpreter.evaluateOperand(root, frame, "array");
    } catch (problem) {
      refused = toRefusal(problem);
      return null;
    }
  }, place);
  if (refused) return { reason: refused.reason };
  if (value instanceof Matrix) {
    const { rows, columns } = value;
    return {
      rows: Array.from({ length: rows }, (_, row) =>
        Array.from({ length: columns }, (_, column) => value.at(row, column)),
      ),
    };
  }
  return value === undefined || isScalar(value)
    ? { rows: [[value ?? null]] }
    : { reason: "the formula gives no value for a cell" };
}

const isScalar = (value: Value): value is Scalar =>
  value === null || value instanceof ErrorValue || typeof value !== "object";
