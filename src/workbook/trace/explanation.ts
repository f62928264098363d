import type { SheetArea } from "../book/area";
import type { Names } from "../book/names";
import type { Interpreter } from "../formula/interpreter";
import type { Node } from "../formula/parse/syntax";
import type { Frame, Way } from "../formula/references/frame";
import { type Matrix, Reference, type Scalar, type Value } from "../formula/values/value";
import type { Work } from "../formula/values/work";
import type { FunctionNote } from "./function-notes";

/** An area that a formula read, and what for. */
export interface Read {
  readonly area: SheetArea;
  readonly role: string;
}

/** A part of a formula in words; the looser it binds, the lower its rank, so that parentheses stand only where they are needed. */
export interface Words {
  readonly text: string;
  readonly rank: number;
}

export const word = (text: string): Words => ({ text, rank: 9 });

/** Where in a formula the walk is. */
export interface Spot {
  readonly frame: Frame;
  readonly way: Way;
  /** What the part is for: a parameter of an add-in function, a condition. */
  readonly role: string;
  /** Inside a LAMBDA, whose arguments are not known: nothing is evaluated. */
  readonly unsure: boolean;
  /** Only one value is wanted of a range. */
  readonly single: boolean;
  /** Names within names. */
  readonly depth: number;
}

/** What the walk through a formula finds. */
export interface Findings {
  readonly reads: Read[];
  readonly notes: Set<string>;
  /** Why the branches that counted did. */
  readonly reasons: Set<string>;
  /** The add-in functions that it calls, by id. */
  readonly calls: Set<string>;
}

/** The tools that every part of the walk shares. */
export interface Tools {
  readonly interpreter: Interpreter;
  /** What all parts together may take. */
  readonly work: Work;
  readonly names: Names;
  readonly functions: ReadonlyMap<string, FunctionNote>;
  /** The words for an area: what it is about, in quotes, or its address. */
  nameArea(area: SheetArea): string;
  /** The words for a value. */
  nameValue(value: Scalar): string;
}

/** The walk itself, as the special cases see it. */
export interface Walker {
  readonly tools: Tools;
  readonly findings: Findings;
  walk(node: Node | null | undefined, spot: Spot): Words;
  read(reference: Reference, role: string): void;
  /** The words for a reference. */
  nameReference(reference: Reference): string;
  /** The words for a name: of LET or LAMBDA, or a defined one. */
  name(node: Node & { type: "name" }, spot: Spot): Words;
}

/** A part evaluated as it stands; undefined where that is not possible. */
export function evaluateNode({ tools }: Walker, node: Node, { unsure, frame, way }: Spot): Value | undefined {
  return unsure ? undefined : tryEvaluation(tools, () => tools.interpreter.evaluate(node, frame, way));
}

/** A part evaluated to one value, or to several in an array formula; undefined where that is not possible. */
export function evaluateScalars(
  { tools }: Walker,
  node: Node,
  { unsure, frame, way }: Spot,
): Scalar | Matrix | undefined {
  return unsure ? undefined : tryEvaluation(tools, () => tools.interpreter.evaluateOperand(node, frame, way));
}

/** The cells that a part means, undefined where it is no reference. */
export function resolveReference(walker: Walker, node: Node, spot: Spot): Reference | undefined {
  const value = evaluateNode(walker, node, spot);
  return value instanceof Reference ? value : undefined;
}

/** What cannot be evaluated by itself is told as it is written: nothing is guessed. */
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
