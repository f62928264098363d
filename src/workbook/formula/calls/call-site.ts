import type { Caller } from "./function-entry";
import type { ArgumentSource } from "./calls";
import { evaluateBranch } from "../final-value";
import type { Evaluator, Frame, Way } from "../references/frame";
import type { Grid } from "../grid/grid";
import type { Node } from "../parse/syntax";
import { Matrix } from "../values/value";

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
  const inner = way === "cell" ? "nested" : way;
  return nodes.map((node) =>
    node
      ? {
          empty: false,
          value: () => evaluator.evaluate(node, frame, inner),
          asArray: () => evaluator.evaluate(node, frame, "array"),
          scalars: () => evaluator.evaluateOperand(node, frame, way),
          inPlace: () => evaluateBranch(evaluator, node, frame, way),
        }
      : emptyPlace,
  );
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
