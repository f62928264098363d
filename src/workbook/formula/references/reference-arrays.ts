import { broadcast } from "../values/broadcast";
import type { Evaluator, Frame, Way } from "./frame";
import { refuse } from "../values/refusal";
import type { CallNode, Node } from "../parse/syntax";
import { Lambda, Matrix, Omitted, Reference, type Scalar, type Value } from "../values/value";

/** Functions that take each of several references by itself; all others see the first, or an error. */
const takers = new Set(["SUBTOTAL", "N", "T", "SUMIF", "SUMIFS", "COUNTIF", "COUNTIFS", "AVERAGEIF"]);
const makers = new Set(["OFFSET", "INDIRECT"]);

interface Spot {
  /** The argument of the outer call that makes references, and its own argument that is an array. */
  readonly outer: number;
  readonly inner: number;
  readonly matrix: Matrix;
}

/**
 * A call with OFFSET or INDIRECT for several places at once, such as SUBTOTAL(103,OFFSET(A2,ROW(A2:A9)-ROW(A2),0)) for the rows
 * that a filter shows or SUMIF(INDIRECT("'"&sheets&"'!A:A"),…) over several sheets: one result for each. Undefined where the
 * call is not of this kind.
 */
export function callOverReferences(
  evaluator: Evaluator,
  node: CallNode,
  frame: Frame,
  way: Way,
  call: (node: CallNode) => Value,
): Value | undefined {
  const spots = takers.has(node.name) ? spotsOf(evaluator, node, frame, way === "cell" ? "nested" : way) : [];
  if (spots.length === 0) return undefined;
  return broadcast(
    spots.map(({ matrix }) => matrix),
    (values) => single(call(withValues(node, spots, values)), node.name),
  );
}

function spotsOf(evaluator: Evaluator, node: CallNode, frame: Frame, way: Way): Spot[] {
  return node.arguments.flatMap((argument, outer) => {
    if (argument?.type !== "call" || !makers.has(argument.name)) return [];
    return argument.arguments.flatMap((part, inner) => {
      if (!part || (argument.name === "OFFSET" && inner === 0)) return [];
      const matrix = evaluator.operand(part, frame, way);
      return matrix instanceof Matrix && matrix.values.length > 1 ? [{ outer, inner, matrix }] : [];
    });
  });
}

/** The call with one value in the place of each array. */
function withValues(node: CallNode, spots: readonly Spot[], values: readonly Scalar[]): CallNode {
  const replaced = (argument: Node | null, outer: number): Node | null => {
    if (argument?.type !== "call") return argument;
    const parts = argument.arguments.map((part, inner): Node | null => {
      const turn = spots.findIndex((spot) => spot.outer === outer && spot.inner === inner);
      return turn < 0 ? part : { type: "constant", value: values[turn] ?? null };
    });
    return { ...argument, arguments: parts };
  };
  const isChanged = (outer: number): boolean => spots.some((spot) => spot.outer === outer);
  return {
    ...node,
    arguments: node.arguments.map((argument, outer) => (isChanged(outer) ? replaced(argument, outer) : argument)),
  };
}

function single(value: Value, name: string): Scalar {
  if (value instanceof Matrix || value instanceof Reference || value instanceof Lambda || value instanceof Omitted)
    return refuse(`${name} over several references with an array beside them`);
  return value;
}
