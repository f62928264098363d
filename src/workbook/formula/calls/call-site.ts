import type { Caller } from "./function-entry";
import type { ArgumentSource } from "./calls";
import { evaluateBranch } from "../final-value";
import type { Evaluator, Frame, Way } from "../references/frame";
import type { Grid } from "../grid/grid";
import type { Node } from "../parse/syntax";
import { Matrix, type Scalar, type Value } from "../values/value";

const emptyPlace: ArgumentSource = {
  empty: true,
  value: () => null,
  asArray: () => null,
  scalars: () => null,
  inPlace: () => null,
};

/** The arguments of a call, evaluated as required by the function's argument kinds. */
export function createSources(
  evaluator: Evaluator,
  nodes: readonly (Node | null)[],
  frame: Frame,
  way: Way,
): ArgumentSource[] {
  return nodes.map((node) => (node ? new NodeSource(evaluator, node, frame, way) : emptyPlace));
}

/** A class, as there are several to most cells of a workbook, and closures would take longer to make. */
class NodeSource implements ArgumentSource {
  readonly empty = false;

  constructor(
    private readonly evaluator: Evaluator,
    private readonly node: Node,
    private readonly frame: Frame,
    private readonly way: Way,
  ) {}

  value(): Value {
    return this.evaluator.evaluate(this.node, this.frame, this.way === "cell" ? "nested" : this.way);
  }

  asArray(): Value {
    return this.evaluator.evaluate(this.node, this.frame, "array");
  }

  scalars(): Scalar | Matrix {
    return this.evaluator.evaluateOperand(this.node, this.frame, this.way);
  }

  inPlace(): Value {
    return evaluateBranch(this.evaluator, this.node, this.frame, this.way);
  }
}

/** The context available to the called function. */
export function describeCaller(evaluator: Evaluator, grid: Grid, name: string, frame: Frame, way: Way): Caller {
  return {
    name,
    place: frame,
    grid,
    now: frame.now,
    kind: frame.kind,
    inArray: way === "array",
    scalars: (value) => evaluator.readScalars(value, frame, "array"),
    scalar: (value) => {
      const scalars = evaluator.readScalars(value, frame, way);
      return scalars instanceof Matrix ? scalars.at(0, 0) : scalars;
    },
    referenceOfText: (text, style) => evaluator.readReferenceText(text, style, frame, way),
  };
}
