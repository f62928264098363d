import type { Place } from "../../book/area";
import type { Node } from "../parse/syntax";
import type { Matrix, Scalar, Value } from "../values/value";

/**
 * How a part of a formula is calculated: "cell" and "nested" in an ordinary formula (nested: inside an argument that takes
 * ranges), where a range met by an operator means its cell in the formula's row or column; "array" cell by cell.
 */
export type Way = "cell" | "nested" | "array";

/** What the formula is: an ordinary one, an array formula in braces, or one whose result may spill. */
export type FormulaKind = "ordinary" | "braces" | "dynamic";

/** How an address is written in a text: A1 and B2:C3, or R1C1 and R[-1]C[2]. */
export type AddressStyle = "A1" | "R1C1";

/** Names bound by LET and LAMBDA, innermost first. */
export interface Scope {
  readonly names: ReadonlyMap<string, Value>;
  readonly outer: Scope | undefined;
}

/** Where and how a formula is evaluated. */
export interface Frame extends Place {
  readonly kind: FormulaKind;
  readonly scope: Scope | undefined;
  readonly now: Date | undefined;
}

/** The part of the interpreter that calls need: it evaluates the parts of a formula. */
export interface Evaluator {
  /** A part as it is: references stay references. */
  evaluate(node: Node, frame: Frame, way: Way): Value;
  /** A part as an operand: scalars, by implicit intersection or cell by cell. */
  evaluateOperand(node: Node, frame: Frame, way: Way): Scalar | Matrix;
  /** A value read into memory: references to their cells, in an ordinary formula to the one cell meant. */
  readScalars(value: Value, frame: Frame, way: Way): Scalar | Matrix;
  /** A text such as "Sheet1!A1:B2" as a reference, or undefined. */
  readReferenceText(text: string, style: AddressStyle, frame: Frame, way: Way): Value | undefined;
}
