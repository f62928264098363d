import { isSingleCell, type Place } from "../book/area";
import type { Inspector } from "../book/inspector";
import type { BinaryOperator, Node } from "../formula/parse/syntax";
import type { Scalar } from "../formula/values/value";
import { ErrorValue } from "../model";
import { formatCellValue } from "../formatting";

/** A formula with numbers that is longer than this is no easier to read than the formula. */
const longest = 240;

const digits = 5;

const deepest = 30;

const precedence: Readonly<Record<BinaryOperator, number>> = {
  "=": 1,
  "<": 1,
  ">": 1,
  "<=": 1,
  ">=": 1,
  "<>": 1,
  "&": 2,
  "+": 3,
  "-": 3,
  "*": 4,
  "/": 4,
  "^": 5,
};

const signs: Readonly<Partial<Record<string, string>>> = { "*": "×", "-": "−", "<=": "≤", ">=": "≥", "<>": "≠" };

/**
 * A formula with the values of the cells that it reads put in, and its result: "274.8 / 480 = 0.5725". Of IF and its like only the branch that
 * applies is shown. "" where there is nothing to calculate, or where that would be no easier to read than the formula.
 */
export function putNumbersIn(view: Inspector, place: Place): string {
  const parsed = view.parseFormulaAt(place);
  if (!parsed) return "";
  const writer = new Writer(view, place);
  const formula = writer.write(parsed.root, 0, 0);
  const result = formatOperand(view.readValue(place));
  const isCalculation = writer.operations > 0 && writer.numbers > 0 && formula !== result;
  return isCalculation && formula.length <= longest ? `${formula} = ${result}` : "";
}

class Writer {
  numbers = 0;
  operations = 0;

  constructor(
    private readonly view: Inspector,
    private readonly place: Place,
  ) {}

  /** The node in a place that needs parentheses around anything weaker. */
  write(node: Node, weakest: number, depth: number): string {
    if (depth > deepest) return "…";
    const into = (part: Node | null, strength = 0): string => (part ? this.write(part, strength, depth + 1) : "");
    switch (node.type) {
      case "constant":
        if (typeof node.value === "number") this.numbers += 1;
        return formatOperand(node.value);
      case "area":
      case "name":
      case "table":
        return this.writeReference(node);
      case "sign":
        return node.operator === "%"
          ? `${into(node.operand, 6)} %`
          : `${signs[node.operator] ?? ""}${into(node.operand, 6)}`;
      case "operation": {
        this.operations += 1;
        const own = precedence[node.operator];
        const text = `${into(node.left, own)} ${signs[node.operator] ?? node.operator} ${into(node.right, own + 1)}`;
        return own < weakest ? `(${text})` : text;
      }
      case "single":
        return into(node.operand, weakest);
      case "call": {
        const chosen = this.chooseBranch(node.name, node.arguments);
        if (chosen) return this.write(chosen, weakest, depth + 1);
        this.operations += 1;
        return `${node.name}(${node.arguments.map((part) => into(part)).join(", ")})`;
      }
      case "addIn":
        this.operations += 1;
        return `${node.id}(${node.arguments.map((part) => into(part)).join(", ")})`;
      case "apply":
      case "array":
      case "external":
      case "join":
      case "lambda":
      case "let":
      case "refused":
      case "spill":
        return "…";
    }
  }

  /** What IF and IFERROR come to with the present values; undefined for other functions, or if that is not known. */
  private chooseBranch(name: string, given: readonly (Node | null)[]): Node | undefined {
    const [first, second, third] = given;
    if (!first || (name !== "IF" && name !== "IFERROR")) return undefined;
    const values = this.view.evaluateNode(first, this.place);
    const [value] = values ?? [];
    if (values?.length !== 1 || value === undefined) return undefined;
    if (name === "IFERROR") return value instanceof ErrorValue ? (second ?? undefined) : first;
    if (typeof value !== "boolean" && typeof value !== "number") return undefined;
    return (value ? second : third) ?? undefined;
  }

  private writeReference(node: Node): string {
    const [area, ...others] = this.view.resolveNode(node, this.place);
    if (!area || others.length > 0) return node.type === "name" ? node.name : "…";
    if (!isSingleCell(area)) {
      this.numbers += 1;
      return this.view.formatArea(area);
    }
    const value = this.view.readValue({ sheet: area.sheet, row: area.top, column: area.left });
    if (typeof value === "number") this.numbers += 1;
    return formatOperand(value);
  }
}

function formatOperand(value: Scalar): string {
  if (value === null) return "blank";
  return formatCellValue(value, digits).replace(/^-/, "−");
}
