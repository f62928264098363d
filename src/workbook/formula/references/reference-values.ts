import { ErrorValue } from "../../model";
import type { Grid } from "../grid/grid";
import type { CallNode, Node } from "../parse/syntax";
import { broadcast } from "../values/broadcast";
import { refuse } from "../values/refusal";
import { errors, Lambda, Matrix, Omitted, Reference, type Scalar, type Value } from "../values/value";
import { isSingleCell, type Place } from "../../book/area";
import type { Evaluator, Frame, Way } from "./frame";
import { pickImplicitCell, joinReferences } from "./references";

/** True for a cell found by implicit intersection, false for the error instead. */
export const isArea = (value: ReturnType<typeof pickImplicitCell>): value is Exclude<typeof value, Scalar> =>
  typeof value === "object" && value !== null && "sheet" in value;

/** @ and SINGLE: the one cell meant of a reference, the first value of an array. */
export function pickFirst(value: Value, place: Place): Value {
  if (value instanceof Matrix) return value.at(0, 0);
  if (!(value instanceof Reference)) return value;
  const cell = pickImplicitCell(value, place);
  return isArea(cell) ? new Reference([cell]) : cell;
}

/** A range, union or intersection of two values; errors go through, what is no reference is #VALUE!. */
export function combineReferences(operator: ":" | "," | " ", left: Value, right: Value): Value {
  if (left instanceof ErrorValue) return left;
  if (right instanceof ErrorValue) return right;
  return left instanceof Reference && right instanceof Reference ? joinReferences(operator, left, right) : errors.value;
}

/** A1#: the cells currently filled by the array formula in A1, dynamic or in braces; #REF! if there is none. */
export function spillReference(value: Value, grid: Grid): Value {
  if (value instanceof ErrorValue) return value;
  const area = value instanceof Reference ? value.area : undefined;
  if (!area || !isSingleCell(area)) return errors.reference;
  const slot = grid.findSlot(area.sheet, area.top, area.left);
  if (!slot?.formula?.dynamic && !slot?.formula?.array) return errors.reference;
  const own = grid.readValue(area.sheet, area.top, area.left);
  if (!slot.filled) return own instanceof ErrorValue ? own : errors.reference;
  return new Reference([{ sheet: area.sheet, ...slot.filled }]);
}

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
  const spots = takers.has(node.name) ? listSpots(evaluator, node, frame, way === "cell" ? "nested" : way) : [];
  if (spots.length === 0) return undefined;
  return broadcast(
    spots.map(({ matrix }) => matrix),
    (values) => requireSingle(call(withValues(node, spots, values)), node.name),
  );
}

function listSpots(evaluator: Evaluator, node: CallNode, frame: Frame, way: Way): Spot[] {
  return node.arguments.flatMap((argument, outer) => {
    if (argument?.type !== "call" || !makers.has(argument.name)) return [];
    return argument.arguments.flatMap((part, inner) => {
      if (!part || (argument.name === "OFFSET" && inner === 0)) return [];
      const matrix = evaluator.evaluateOperand(part, frame, way);
      return matrix instanceof Matrix && matrix.values.length > 1 ? [{ outer, inner, matrix }] : [];
    });
  });
}

/** The call with one value in the place of each array. */
function withValues(node: CallNode, spots: readonly Spot[], values: readonly Scalar[]): CallNode {
  const replaceArgument = (argument: Node | null, outer: number): Node | null => {
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
    arguments: node.arguments.map((argument, outer) =>
      isChanged(outer) ? replaceArgument(argument, outer) : argument,
    ),
  };
}

function requireSingle(value: Value, name: string): Scalar {
  if (value instanceof Matrix || value instanceof Reference || value instanceof Lambda || value instanceof Omitted)
    return refuse(`${name} over several references with an array beside them`);
  return value;
}
