import { ErrorValue } from "../model";
import type { AddInCalls } from "./calls/add-in";
import { broadcast } from "./values/broadcast";
import { describeCaller, createSources } from "./calls/call-site";
import { callFunction, explainUnknownFunction } from "./calls/calls";
import type { AddressStyle, Evaluator, Frame, Scope, Way } from "./references/frame";
import type { FunctionTable } from "./calls/function-entry";
import type { Grid } from "./grid/grid";
import type { Names, SheetNames } from "../book/names";
import { applySign, operate } from "./operators";
import {
  callOverReferences,
  pickFirst,
  isArea,
  combineReferences,
  spillReference,
} from "./references/reference-values";
import { resolveReferenceText } from "./references/reference-of-text";
import { pickImplicitCell, resolveArea, resolveOwnCell } from "./references/references";
import { refuse } from "./values/refusal";
import { parseFormula } from "./parse/parse";
import { sentence } from "../file/problem";
import { unrollChain, type CallNode, type ExternalNode, type Node, type OperationNode } from "./parse/syntax";
import { findSheetAsked } from "./references/sheet-name";
import { resolveTable } from "./references/table-reference";
import { errors, Lambda, Matrix, Omitted, Reference, type Scalar, type Value } from "./values/value";
import { isSingleCell } from "../book/area";
import { spend } from "./work-limits";

/** The interpreter's environment, set up once per book. */
export interface Workshop {
  readonly grid: Grid;
  readonly sheetNames: SheetNames;
  readonly names: Names;
  readonly functions: FunctionTable;
  readonly addIn: AddInCalls;
}

/** Names and functions may call themselves; a stack overflow must not end the program. */
const deepest = 200;

/** Evaluates trees. */
export class Interpreter implements Evaluator {
  private depth = 0;

  constructor(private readonly workshop: Workshop) {}

  evaluate(node: Node, frame: Frame, way: Way): Value {
    spend(15);
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
      case "external":
        return this.evaluateExternal(node, frame, way);
      case "operation":
        return this.evaluateOperations(node, frame, way);
      case "sign":
        return broadcast([this.evaluateOperand(node.operand, frame, way)], ([value = null]) =>
          applySign(node.operator, value),
        );
      case "join": {
        const { first, steps } = unrollChain(node);
        return steps.reduce(
          (left, { operator, right }) => combineReferences(operator, left, this.evaluate(right, frame, way)),
          this.evaluate(first, frame, way),
        );
      }
      case "spill":
        return spillReference(this.evaluate(node.operand, frame, way), this.workshop.grid);
      case "single":
        return pickFirst(this.evaluate(node.operand, frame, way), frame);
      case "call":
        return this.call(node, frame, way);
      case "addIn": {
        const sources = createSources(this, node.arguments, frame, way);
        return this.workshop.addIn.call(
          node.id,
          sources,
          describeCaller(this, this.workshop.grid, node.id, frame, way),
        );
      }
      case "let":
        return this.evaluate(node.body, { ...frame, scope: this.bound(node.names, node.values, frame, way) }, way);
      case "lambda":
        return this.createLambda(node, frame, way);
      case "apply":
        return this.apply(this.evaluate(node.callee, frame, way), node.arguments, frame, way);
      case "refused":
        return refuse(node.reason, node.cause);
    }
  }

  /** Operations taken from the left, a+b+c…, may be thousands: a loop, not a recursion. */
  private evaluateOperations(node: OperationNode, frame: Frame, way: Way): Scalar | Matrix {
    const { first, steps } = node.left.type === node.type ? unrollChain(node) : { first: node.left, steps: [node] };
    let left = this.evaluateOperand(first, frame, way);
    for (const [place, { operator, right }] of steps.entries()) {
      spend(5);
      if (place > 0) left = this.readAsOperand(left, frame, way);
      const other = this.evaluateOperand(right, frame, way);
      left =
        !(left instanceof Matrix) && !(other instanceof Matrix)
          ? operate(operator, left, other)
          : broadcast([left, other], ([a = null, b = null]) => operate(operator, a, b));
    }
    return left;
  }

  evaluateOperand(node: Node, frame: Frame, way: Way): Scalar | Matrix {
    const cell = node.type === "area" ? resolveOwnCell(node, frame) : undefined;
    if (cell) {
      // The most frequent operand, without the detour by a reference; it counts as much.
      spend(15);
      return this.workshop.grid.readValue(frame.sheet, cell.row, cell.column);
    }
    return this.readAsOperand(this.evaluate(node, frame, way), frame, way);
  }

  private readAsOperand(value: Value, frame: Frame, way: Way): Scalar | Matrix {
    if (!(value instanceof Matrix) || value.constant || way === "array") return this.readScalars(value, frame, way);
    // Outside array formulas an operator takes the first value of an array that a function returned.
    if (way === "nested" && value.values.length > 1) {
      refuse("an array result inside an ordinary formula, where versions of Excel differ");
    }
    return value.at(0, 0);
  }

  readScalars(value: Value, frame: Frame, way: Way): Scalar | Matrix {
    if (value instanceof Reference) {
      const { grid } = this.workshop;
      if (value.area && way === "array" && !isSingleCell(value.area)) return grid.readMatrix(value.area);
      const cell = pickImplicitCell(value, frame);
      return isArea(cell) ? grid.readValue(cell.sheet, cell.top, cell.left) : cell;
    }
    if (value instanceof Lambda) return errors.value;
    return value instanceof Omitted ? null : value;
  }

  readReferenceText(text: string, style: AddressStyle, frame: Frame, way: Way): Value | undefined {
    return resolveReferenceText(text, style, frame, this.workshop, (node, own) => this.evaluate(node, own, way));
  }

  private name(name: string, sheet: string, frame: Frame): Value {
    const lower = name.toLowerCase();
    for (let scope = sheet === "" ? frame.scope : undefined; scope; scope = scope.outer) {
      const value = scope.names.get(lower);
      if (value !== undefined) return value;
    }
    const found = this.workshop.names.find(lower, sheet, frame.sheet);
    if (found === undefined && Object.hasOwn(this.workshop.functions, name.toUpperCase()))
      return refuse(`the function ${name.toUpperCase()} named without being called`);
    if (found === undefined) return errors.name;
    if (found instanceof ErrorValue) return found;
    // A name is always calculated as an array, and remains one in an ordinary formula.
    const kind = frame.kind === "ordinary" ? "braces" : frame.kind;
    const value = this.guardDepth(() => this.evaluate(found.root, { ...frame, kind, scope: undefined }, "array"));
    if (!(value instanceof Matrix)) return value;
    return new Matrix(value.rows, value.columns, value.values, true, value.beyond, value.fromCells);
  }

  /** A reference to another workbook, as far as this one keeps its values. */
  private evaluateExternal({ book, target }: ExternalNode, frame: Frame, way: Way): Value {
    const { grid } = this.workshop;
    const external = grid.book.externals?.[book - 1];
    if (!external) return refuse("it refers to another workbook");
    if (target.type === "name") {
      const defined = external.names.find(({ name }) => name.toLowerCase() === target.name.toLowerCase());
      const root = defined && parseFormula(defined.text, 0, 0).root;
      if (root?.type !== "area") return refuse(sentence`a name of the other workbook ${external.file}`);
      return this.evaluateExternal({ type: "external", book, target: root }, { ...frame, row: 0, column: 0 }, way);
    }
    const [name = "", ...others] = target.sheets;
    const sheet = others.length > 0 ? undefined : grid.findExternalSheet(book, name);
    if (sheet === undefined) return refuse(sentence`no values are kept here of the other workbook ${external.file}`);
    const { current } = grid.notes;
    if (current) current.externals = new Set(current.externals).add(book);
    const found = resolveArea({ ...target, sheets: [] }, frame, this.workshop.sheetNames);
    return found instanceof Reference ? new Reference(found.areas.map((area) => ({ ...area, sheet }))) : found;
  }

  private call(node: CallNode, frame: Frame, way: Way): Value {
    const { functions, grid } = this.workshop;
    const asked = findSheetAsked(node);
    if (asked !== undefined) return this.nameSheet(asked, frame, way);
    const entry = Object.hasOwn(functions, node.name) ? functions[node.name] : undefined;
    if (entry) {
      const evaluatePlainly = (own: CallNode) =>
        callFunction(
          entry,
          createSources(this, own.arguments, frame, way),
          describeCaller(this, grid, own.name, frame, way),
        );
      return callOverReferences(this, node, frame, way, evaluatePlainly) ?? evaluatePlainly(node);
    }
    const callee = this.name(node.name, "", frame);
    if (callee instanceof Lambda) return this.apply(callee, node.arguments, frame, way);
    return refuse(explainUnknownFunction(node.name));
  }

  /** The name of the sheet that a reference lies on. Without a reference Excel takes the sheet on show, whichever that is. */
  private nameSheet(node: Node | null, frame: Frame, way: Way): Value {
    const { sheets } = this.workshop.grid.book;
    if (!node && sheets.length > 1) refuse('CELL("filename") without a reference depends on the sheet on show');
    const reference = node ? this.evaluate(node, frame, way === "cell" ? "nested" : way) : undefined;
    if (node && !(reference instanceof Reference)) return reference instanceof ErrorValue ? reference : errors.value;
    const sheet = reference instanceof Reference ? reference.areas[0]?.sheet : frame.sheet;
    return sheets[sheet ?? -1]?.name ?? refuse('CELL("filename") of another workbook');
  }

  private bound(names: readonly string[], values: readonly Node[], frame: Frame, way: Way): Scope | undefined {
    let { scope } = frame;
    for (const [place, name] of names.entries()) {
      const value = this.evaluate(values[place] as Node, { ...frame, scope }, way);
      scope = { names: new Map([[name, value]]), outer: scope };
    }
    return scope;
  }

  private createLambda({ parameters, optional, body }: Node & { type: "lambda" }, frame: Frame, way: Way): Lambda {
    return new Lambda(parameters, (given) => {
      if (given.length > parameters.length || given.length < parameters.length - optional) return errors.value;
      // Blank cells are null, what is left out is another thing.
      const values = parameters.map((_, place) => (place < given.length ? (given[place] ?? null) : Omitted.value));
      const names = new Map(parameters.map((parameter, place) => [parameter, values[place] ?? null]));
      return this.guardDepth(() => this.evaluate(body, { ...frame, scope: { names, outer: frame.scope } }, way));
    });
  }

  private apply(callee: Value, given: readonly (Node | null)[], frame: Frame, way: Way): Value {
    if (callee instanceof ErrorValue) return callee;
    if (!(callee instanceof Lambda)) return errors.value;
    return callee.call(given.map((node) => (node ? this.evaluate(node, frame, way) : Omitted.value)));
  }

  private guardDepth(work: () => Value): Value {
    spend(300);
    if (this.depth > deepest) refuse(`names or functions that call each other more than ${deepest} deep`);
    this.depth += 1;
    try {
      return work();
    } finally {
      this.depth -= 1;
    }
  }
}
