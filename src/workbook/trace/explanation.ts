import type { SheetArea } from "../book/area";
import type { Names } from "../book/names";
import type { Interpreter } from "../formula/interpreter";
import type { Node } from "../formula/parse/syntax";
import type { Frame, Way } from "../formula/references/frame";
import { type Matrix, Reference, type Scalar, type Value } from "../formula/values/value";
import type { Work } from "../formula/work-limits";
import type { FunctionNote } from "./function-notes";

/** An area read by a formula, and its role. */
export interface Read {
  readonly area: SheetArea;
  readonly role: string;
}

/** A part of a formula in words; the looser it binds, the lower its rank, so that parentheses appear only where needed. */
export interface Words {
  readonly text: string;
  readonly rank: number;
}

export const word = (text: string): Words => ({ text, rank: 9 });

/** The position of the walk within a formula. */
export interface Spot {
  readonly frame: Frame;
  readonly way: Way;
  /** The part's role: a parameter of an add-in function, a condition. */
  readonly role: string;
  /** Inside a LAMBDA, whose arguments are unknown: nothing is evaluated. */
  readonly unsure: boolean;
  /** Only one value of a range is wanted. */
  readonly single: boolean;
  /** Names within names. */
  readonly depth: number;
}

/** What walking through a formula finds. */
export interface Findings {
  readonly reads: Read[];
  readonly notes: Set<string>;
  /** Why the applied branches were chosen. */
  readonly reasons: Set<string>;
  /** The add-in functions it calls, by id. */
  readonly calls: Set<string>;
}

/** The tools shared by every part of the walk. */
export interface Tools {
  readonly interpreter: Interpreter;
  /** The work allowed for all parts together. */
  readonly work: Work;
  readonly names: Names;
  readonly functions: ReadonlyMap<string, FunctionNote>;
  /** The words for an area: its label, in quotes, or its address. */
  nameArea(area: SheetArea): string;
  /** The words for a value. */
  nameValue(value: Scalar): string;
}

/** The walk itself, as seen by the special cases. */
export interface Walker {
  readonly tools: Tools;
  readonly findings: Findings;
  walk(node: Node | null | undefined, spot: Spot): Words;
  read(reference: Reference, role: string): void;
  /** The words for a reference. */
  nameReference(reference: Reference): string;
  /** The words for a name, whether from LET or LAMBDA or defined in the workbook. */
  name(node: Node & { type: "name" }, spot: Spot): Words;
}

/** A part evaluated as written; undefined if that is not possible. */
export function evaluateNode({ tools }: Walker, node: Node, { unsure, frame, way }: Spot): Value | undefined {
  return unsure ? undefined : tryEvaluation(tools, () => tools.interpreter.evaluate(node, frame, way));
}

/** A part evaluated to one value, or to several in an array formula; undefined if that is not possible. */
export function evaluateScalars(
  { tools }: Walker,
  node: Node,
  { unsure, frame, way }: Spot,
): Scalar | Matrix | undefined {
  return unsure ? undefined : tryEvaluation(tools, () => tools.interpreter.evaluateOperand(node, frame, way));
}

/** The cells a part refers to; undefined if it is not a reference. */
export function resolveReference(walker: Walker, node: Node, spot: Spot): Reference | undefined {
  const value = evaluateNode(walker, node, spot);
  return value instanceof Reference ? value : undefined;
}

/** A part that cannot be evaluated by itself is described as written; nothing is guessed. */
function tryEvaluation<T>({ work }: Tools, evaluate: () => T): T | undefined {
  try {
    work.startFormula();
    return work.measureWork(evaluate);
  } catch {
    return undefined;
  }
}

export const call = (name: string, ...given: (Node | null)[]): Node => ({ type: "call", name, arguments: given });
export const constant = (value: Scalar): Node => ({ type: "constant", value });
