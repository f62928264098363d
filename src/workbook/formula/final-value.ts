import { isNearlyCancelled, operate, snapToZero } from "./operators";
import type { Node, Parsed } from "./parse/syntax";
import type { Evaluator, Frame, Way } from "./references/frame";
import { broadcast } from "./values/broadcast";
import { refuse } from "./values/refusal";
import type { Scalar, Value } from "./values/value";

type Sum = Extract<Node, { type: "operation" }> & { readonly operator: "+" | "-" };

const isSum = (node: Node): node is Sum =>
  node.type === "operation" && (node.operator === "+" || node.operator === "-");

const sums = new Set(["SUM", "SUBTOTAL", "AGGREGATE", "AVERAGE"]);

/** A sum of nothing but cells: the largest number that the formula reads is a summand. */
export const isPlainSum = (root: Node): boolean =>
  root.type === "call" &&
  sums.has(root.name) &&
  root.arguments.every((node) => node && ["area", "table", "name", "constant"].includes(node.type));

/** The value of a whole formula, a final difference near zero snapped as Excel does; scale is the larger operand of it. */
export function evaluateFinalValue(
  evaluator: Evaluator,
  parsed: Parsed,
  frame: Frame,
  way: Way,
): { value: Value; scale: number } {
  const { root, parenthesised } = parsed;
  if (!isSum(root)) return { value: evaluator.evaluate(root, frame, way), scale: 0 };
  let scale = 0;
  const value = sumOf(evaluator, root, frame, way, (a, b, result) => {
    for (const side of [a, b]) if (typeof side === "number") scale = Math.max(scale, Math.abs(side));
    return parenthesised ? result : snapToZero(root.operator, a, b, result);
  });
  return { value, scale };
}

/** A branch of IF and its like: whether a difference near zero is snapped there, at the end of the formula, is not known. */
export function evaluateBranch(evaluator: Evaluator, node: Node, frame: Frame, way: Way): Value {
  if (!isSum(node)) return evaluator.evaluate(node, frame, way);
  return sumOf(evaluator, node, frame, way, (a, b, result) =>
    isNearlyCancelled(a, b, result)
      ? refuse("a difference near 0 at the end of a branch, where it is not certain that Excel shows 0")
      : result,
  );
}

function sumOf(
  evaluator: Evaluator,
  { operator, left, right }: Sum,
  frame: Frame,
  way: Way,
  finish: (left: Scalar, right: Scalar, result: Scalar) => Scalar,
): Scalar | ReturnType<typeof broadcast> {
  const operands = [evaluator.evaluateOperand(left, frame, way), evaluator.evaluateOperand(right, frame, way)];
  return broadcast(operands, ([a = null, b = null]) => finish(a, b, operate(operator, a, b)));
}
