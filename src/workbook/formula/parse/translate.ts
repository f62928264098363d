import { parseA1Ref, parseStructRef, type AstExpression, type RangeA1 } from "@borgar/fx/xlsx";
import type { AreaNode, Edge, NameNode, Node, RefusedNode } from "./syntax";
import { errorOfCode } from "../values/value";
import { lastColumn, lastRow } from "../../book/area";
import { sentence } from "../../file/problem";
import { optionalMark } from "./formula-text";

const addInPrefix = /^(?:_XLDUDF_STILLAIR_|STILLAIR\.)/;

type Binary = Extract<AstExpression, { type: "BinaryExpression" }>;
type Callee = AstExpression | { type: "Identifier"; name: string };

const isOptional = (parameter: string): boolean => parameter.toLowerCase().startsWith(optionalMark);

/** A parameter as the body names it. */
function bareParameter(parameter: string): string {
  const name = parameter.toLowerCase();
  if (!isOptional(name)) return name;
  const bare = name.slice(optionalMark.length);
  return /^[rc]+$/.test(bare) ? `_xlpm_${bare}` : bare;
}

/** Turns the library's tree, with references as text, into ours, with references relative to the formula's cell. */
export class Translator {
  constructor(
    private readonly row: number,
    private readonly column: number,
  ) {}

  translateNode(source: AstExpression): Node {
    switch (source.type) {
      case "Literal":
        return { type: "constant", value: source.value };
      case "ErrorLiteral":
        return { type: "constant", value: errorOfCode(source.value) };
      case "ReferenceIdentifier":
        return this.translateReference(source.value, source.kind);
      case "UnaryExpression":
        return this.translateUnary(source.operator, this.translateNode(source.arguments[0] as AstExpression));
      case "BinaryExpression":
        return this.translateBinary(source);
      case "CallExpression":
        return this.call(source.callee, source.arguments);
      case "ArrayExpression": {
        const values = source.elements.flat().map((element) => {
          const node = this.translateNode(element);
          return node.type === "constant" ? node.value : null;
        });
        const columns = source.elements[0]?.length ?? 0;
        if (source.elements.some((elements) => elements.length !== columns))
          throw new Error("an array with uneven rows");
        return { type: "array", rows: source.elements.length, columns, values };
      }
      case "LetExpression":
        return {
          type: "let",
          names: source.declarations.map((declaration) => declaration.id.name.toLowerCase()),
          values: source.declarations.map((declaration) => this.translateRequired(declaration.init)),
          body: this.translateRequired(source.body),
        };
      case "LambdaExpression":
        return {
          type: "lambda",
          parameters: source.params.map(({ name }) => bareParameter(name)),
          optional: source.params.filter(({ name }) => isOptional(name)).length,
          body: this.translateRequired(source.body),
        };
    }
  }

  /** Operations taken from the left, a+b+c…, may be thousands: a loop, not a recursion. */
  private translateBinary(source: Binary): Node {
    const chain: Binary[] = [];
    let first: AstExpression = source;
    for (; first.type === "BinaryExpression"; first = first.arguments[0] as AstExpression) chain.push(first);
    return chain.reduceRight((left, { operator, arguments: given }): Node => {
      const right = this.translateNode(given[1] as AstExpression);
      if (operator === ":" || operator === "," || operator === " ") return { type: "join", operator, left, right };
      return { type: "operation", operator, left, right };
    }, this.translateNode(first));
  }

  private translateRequired(source: AstExpression | null): Node {
    return source ? this.translateNode(source) : { type: "constant", value: null };
  }

  private translateUnary(operator: string, operand: Node): Node {
    if (operator === "#") return { type: "spill", operand };
    if (operator === "@") return { type: "single", operand };
    return { type: "sign", operator: operator as "+" | "-" | "%", operand };
  }

  private call(callee: Callee, given: readonly (AstExpression | null)[]): Node {
    const nodes = given.map((argument) => (argument ? this.translateNode(argument) : null));
    if (callee.type !== "Identifier") return { type: "apply", callee: this.translateNode(callee), arguments: nodes };
    const name = callee.name.toUpperCase();
    const only = nodes.length === 1 ? nodes[0] : undefined;
    if (name === "ANCHORARRAY" && only) return { type: "spill", operand: only };
    if (name === "SINGLE" && only) return { type: "single", operand: only };
    const prefix = addInPrefix.exec(name);
    if (prefix) {
      const form = name.startsWith("_") ? "stored" : "plain";
      return { type: "addIn", id: name.slice(prefix[0].length), form, arguments: nodes };
    }
    return { type: "call", name, arguments: nodes };
  }

  private translateReference(text: string, kind: string): Node {
    if (kind === "table") {
      const found = parseStructRef(text);
      if (!found) return { type: "refused", reason: sentence`the table reference ${text} cannot be read` };
      if (found.workbookName) return { type: "refused", reason: "it refers to another workbook" };
      return { type: "table", table: found.table ?? "", columns: found.columns ?? [], sections: found.sections ?? [] };
    }
    const found = parseA1Ref(text);
    if (!found) return { type: "refused", reason: sentence`the reference ${text} cannot be read` };
    const target = this.translateTarget(found);
    if (target.type === "refused" || !found.workbookName) return target;
    // [0] is the workbook itself.
    if (found.workbookName === "0") return target;
    if (!/^\d+$/.test(found.workbookName)) return { type: "refused", reason: "it refers to another workbook" };
    return { type: "external", book: Number(found.workbookName), target };
  }

  private translateTarget(found: NonNullable<ReturnType<typeof parseA1Ref>>): AreaNode | NameNode | RefusedNode {
    if ("name" in found)
      return {
        type: "name",
        name: isOptional(found.name) ? bareParameter(found.name) : found.name,
        sheet: found.sheetName ?? "",
      };
    const range = found.range;
    if (range.trim) return { type: "refused", reason: "references that trim blank edges are not on the list" };
    return this.translateArea(found.sheetName ?? "", range);
  }

  private translateArea(sheetName: string, range: RangeA1): AreaNode {
    const translateEdge = (
      index: number | null | undefined,
      fixed: boolean | null | undefined,
      whole: number,
      anchor: number,
    ): Edge =>
      typeof index !== "number"
        ? { fixed: true, index: whole }
        : { fixed: fixed === true, index: fixed === true ? index : index - anchor };
    return {
      type: "area",
      sheets: sheetName === "" ? [] : sheetName.includes(":") ? sheetName.split(":") : [sheetName],
      top: translateEdge(range.top, range.$top, 0, this.row),
      left: translateEdge(range.left, range.$left, 0, this.column),
      bottom: translateEdge(range.bottom, range.$bottom, lastRow, this.row),
      right: translateEdge(range.right, range.$right, lastColumn, this.column),
    };
  }
}
