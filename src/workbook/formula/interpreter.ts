import { ErrorValue } from "../model";
import type { AddInCalls } from "./add-in";
import { broadcast } from "./broadcast";
import type { Caller } from "./caller";
import { callFunction, type ArgumentSource } from "./calls";
import type { FunctionTable } from "./function-entry";
import type { Grid } from "./grid";
import type { Names } from "./names";
import { applySign, isNearlyCancelled, operate, snapped } from "./operators";
import { refuse } from "./refusal";
import { implicitCell, joinReferences, resolveArea, type Place, type SheetNames } from "./references";
import type { CallNode, Node, Parsed } from "./syntax";
import { resolveTable } from "./table-reference";
import { errors, isSingleCell, Lambda, Matrix, Omitted, Reference, type Scalar, type Value } from "./value";

/**
 * How a part of a formula is calculated: "cell" and "nested" in an ordinary formula (nested: inside an argument that takes
 * ranges), where a range met by an operator means its cell in the formula's row or column; "array" cell by cell.
 */
export type Way = "cell" | "nested" | "array";

/** Names bound by LET and LAMBDA, innermost first. */
export interface Scope {
  readonly names: ReadonlyMap<string, Value>;
  readonly outer: Scope | undefined;
}

/** Where and how a formula is evaluated. */
export interface Frame extends Place {
  readonly scope: Scope | undefined;
  readonly now: Date | undefined;
}

/** What the interpreter works with, put together once for a book. */
export interface Workshop {
  readonly grid: Grid;
  readonly sheetNames: SheetNames;
  readonly names: Names;
  readonly functions: FunctionTable;
  readonly addIn: AddInCalls;
}

const emptyPlace: ArgumentSource = {
  empty: true,
  value: () => null,
  asArray: () => null,
  scalars: () => null,
  inPlace: () => null,
};

/** Evaluates trees. */
export class Interpreter {
  private depth = 0;

  constructor(private readonly workshop: Workshop) {}

  /** The value of a whole formula, a final difference near zero snapped as Excel does. */
  formula(parsed: Parsed, frame: Frame, way: Way): { value: Value; scale: number } {
    const { root } = parsed;
    if (root.type !== "operation" || (root.operator !== "+" && root.operator !== "-")) {
      return { value: this.evaluate(root, frame, way), scale: 0 };
    }
    const { operator } = root;
    let scale = 0;
    const value = broadcast(
      [this.operand(root.left, frame, way), this.operand(root.right, frame, way)],
      ([a = null, b = null]) => {
        const result = operate(operator, a, b);
        for (const side of [a, b]) if (typeof side === "number") scale = Math.max(scale, Math.abs(side));
        return parsed.parenthesised ? result : snapped(operator, a, b, result);
      },
    );
    return { value, scale };
  }

  evaluate(node: Node, frame: Frame, way: Way): Value {
    switch (node.type) {
      case "constant":
        return node.value;
      case "array":
        return new Matrix(node.rows, node.columns, node.values, true);
      case "area":
        return resolveArea(node, frame, this.workshop.sheetNames);
      case "table":
        return resolveTable(node, frame, this.workshop.grid.book);
      case "name":
        return this.name(node.name, node.sheet, frame);
      case "operation": {
        const left = this.operand(node.left, frame, way);
        const right = this.operand(node.right, frame, way);
        if (!(left instanceof Matrix) && !(right instanceof Matrix)) return operate(node.operator, left, right);
        return broadcast([left, right], ([a = null, b = null]) => operate(node.operator, a, b));
      }
      case "sign": {
        const operand = this.operand(node.operand, frame, way);
        return broadcast([operand], ([value = null]) => applySign(node.operator, value));
      }
      case "join": {
        const left = this.evaluate(node.left, frame, way);
        const right = this.evaluate(node.right, frame, way);
        if (left instanceof ErrorValue) return left;
        if (right instanceof ErrorValue) return right;
        return left instanceof Reference && right instanceof Reference
          ? joinReferences(node.operator, left, right)
          : errors.value;
      }
      case "spill":
        return this.spill(node.operand, frame, way);
      case "single": {
        const value = this.evaluate(node.operand, frame, way);
        if (value instanceof Reference) {
          const cell = implicitCell(value, frame);
          return typeof cell === "object" && cell !== null && "sheet" in cell ? new Reference([cell]) : cell;
        }
        return value instanceof Matrix ? value.at(0, 0) : value;
      }
      case "call":
        return this.call(node, frame, way);
      case "addIn":
        return this.workshop.addIn.call(
          node.id,
          this.sources(node.arguments, frame, way),
          this.caller(node.id, frame, way),
        );
      case "let": {
        let scope = frame.scope;
        for (const [place, name] of node.names.entries()) {
          const value = this.evaluate(node.values[place] as Node, { ...frame, scope }, way);
          scope = { names: new Map([[name, value]]), outer: scope };
        }
        return this.evaluate(node.body, { ...frame, scope }, way);
      }
      case "lambda":
        return this.lambda(node.parameters, node.body, frame, way);
      case "apply":
        return this.apply(this.evaluate(node.callee, frame, way), node.arguments, frame, way);
      case "refused":
        return refuse(node.reason);
    }
  }

  /** A branch of IF and its like: whether a difference near zero is snapped there, at the end of the formula, is not known. */
  private branch(node: Node, frame: Frame, way: Way): Value {
    if (node.type !== "operation" || (node.operator !== "+" && node.operator !== "-"))
      return this.evaluate(node, frame, way);
    const { operator } = node;
    return broadcast(
      [this.operand(node.left, frame, way), this.operand(node.right, frame, way)],
      ([a = null, b = null]) => {
        const result = operate(operator, a, b);
        return isNearlyCancelled(a, b, result)
          ? refuse("a difference near 0 at the end of a branch, where it is not certain that Excel shows 0")
          : result;
      },
    );
  }

  /** An operand of an operator: scalars, by implicit intersection or cell by cell. */
  private operand(node: Node, frame: Frame, way: Way): Scalar | Matrix {
    const value = this.evaluate(node, frame, way);
    if (value instanceof Matrix && !value.constant && way !== "array") return this.topLeft(value, way);
    return this.scalars(value, frame, way);
  }

  /** Outside array formulas an operator takes the first value of an array that a function returned. */
  private topLeft(value: Matrix, way: Way): Scalar {
    if (way === "nested" && value.rows * value.columns > 1) {
      refuse("an array result inside an ordinary formula, where versions of Excel differ");
    }
    return value.at(0, 0);
  }

  /** A value read into memory: references to their cells, in an ordinary formula to the one cell meant. */
  scalars(value: Value, frame: Frame, way: Way): Scalar | Matrix {
    if (value instanceof Reference) {
      const { area } = value;
      if (!area) return errors.value;
      if (isSingleCell(area)) return this.workshop.grid.value(area.sheet, area.top, area.left);
      if (way === "array") return this.workshop.grid.matrix(area);
      const cell = implicitCell(value, frame);
      return typeof cell === "object" && cell !== null && "sheet" in cell
        ? this.workshop.grid.value(cell.sheet, cell.top, cell.left)
        : cell;
    }
    if (value instanceof Lambda) return errors.value;
    return value instanceof Omitted ? null : value;
  }

  private name(name: string, sheet: string, frame: Frame): Value {
    const lower = name.toLowerCase();
    if (sheet === "") {
      for (let scope = frame.scope; scope; scope = scope.outer) {
        const value = scope.names.get(lower);
        if (value !== undefined) return value;
      }
    }
    const found = this.workshop.names.find(lower, sheet, frame.sheet);
    if (found === undefined) return errors.name;
    if (found instanceof ErrorValue) return found;
    return this.guarded(() => {
      const value = this.evaluate(found.root, { ...frame, scope: undefined }, "array");
      // A name is always calculated as an array, and stays one in an ordinary formula.
      return value instanceof Matrix
        ? new Matrix(value.rows, value.columns, value.values, true, value.beyond, value.fromCells)
        : value;
    });
  }

  private call(node: CallNode, frame: Frame, way: Way): Value {
    const entry = Object.hasOwn(this.workshop.functions, node.name) ? this.workshop.functions[node.name] : undefined;
    if (entry) return callFunction(entry, this.sources(node.arguments, frame, way), this.caller(node.name, frame, way));
    const callee = this.name(node.name, "", frame);
    if (callee instanceof Lambda) return this.apply(callee, node.arguments, frame, way);
    return refuse(`the function ${node.name} is not on the list`);
  }

  private spill(operand: Node, frame: Frame, way: Way): Value {
    const value = this.evaluate(operand, frame, way);
    if (value instanceof ErrorValue) return value;
    const area = value instanceof Reference ? value.area : undefined;
    if (!area || !isSingleCell(area)) return errors.reference;
    const slot = this.workshop.grid.slotAt(area.sheet, area.top, area.left);
    if (!slot?.formula?.dynamic) return errors.reference;
    const own = this.workshop.grid.value(area.sheet, area.top, area.left);
    const filled = slot.filled;
    if (!filled) return own instanceof ErrorValue ? own : errors.reference;
    return new Reference([{ sheet: area.sheet, ...filled }]);
  }

  private lambda(parameters: readonly string[], body: Node, frame: Frame, way: Way): Lambda {
    return new Lambda(parameters, (given) => {
      if (given.length !== parameters.length) return errors.value;
      const names = new Map(parameters.map((parameter, place) => [parameter, given[place] ?? null]));
      return this.guarded(() => this.evaluate(body, { ...frame, scope: { names, outer: frame.scope } }, way));
    });
  }

  private apply(callee: Value, given: readonly (Node | null)[], frame: Frame, way: Way): Value {
    if (callee instanceof ErrorValue) return callee;
    if (!(callee instanceof Lambda)) return errors.value;
    return callee.call(given.map((argument) => (argument ? this.evaluate(argument, frame, way) : Omitted.value)));
  }

  /** Names in names and functions in functions may call themselves; the machine's own stack must not end the program. */
  private guarded(work: () => Value): Value {
    if (this.depth > 200) refuse("names or functions that call each other more than 200 deep");
    this.depth += 1;
    try {
      return work();
    } finally {
      this.depth -= 1;
    }
  }

  private sources(nodes: readonly (Node | null)[], frame: Frame, way: Way): ArgumentSource[] {
    const inner = way === "cell" ? "nested" : way;
    return nodes.map((node) =>
      node
        ? {
            empty: false,
            value: () => this.evaluate(node, frame, inner),
            asArray: () => this.evaluate(node, frame, "array"),
            scalars: () => this.operand(node, frame, way),
            inPlace: () => this.branch(node, frame, way),
          }
        : emptyPlace,
    );
  }

  private caller(name: string, frame: Frame, way: Way): Caller {
    const { grid, names } = this.workshop;
    return {
      name,
      place: frame,
      grid,
      now: frame.now,
      inArray: way === "array",
      scalars: (value) => this.scalars(value, frame, "array"),
      scalar: (value) => {
        const scalars = this.scalars(value, frame, way);
        return scalars instanceof Matrix ? scalars.at(0, 0) : scalars;
      },
      referenceOfText: (text) => {
        const parsed = names.parseText(text);
        // Addresses in a text are not relative to the cell; names and tables are looked up from where it stands.
        const origin = parsed?.type === "area" || parsed?.type === "join" ? { row: 0, column: 0 } : {};
        return parsed ? this.evaluate(parsed, { ...frame, ...origin, scope: undefined }, way) : undefined;
      },
    };
  }
}
