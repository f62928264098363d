import { parseFormula } from "../formula/parse/parse";
import { listDescendants, type Node } from "../formula/parse/syntax";
import type { Scalar } from "../formula/values/value";
import type { Book } from "../model";
import { isSingleCell, type Place, type SheetArea } from "./area";
import { type BookFormulas, recallFormulas } from "./formulas";

/** A value that a formula looks up in a list of cells: in its own cell, or written in the formula. */
interface LookUp {
  readonly wanted: SheetArea | Scalar;
  readonly list: SheetArea;
}

/** What a formula visibly reads; computed addresses are not included. */
export interface FormulaReads {
  readonly areas: readonly SheetArea[];
  readonly lookUps: readonly LookUp[];
  /** Cells it calculates with: text among them gives #VALUE!. */
  readonly operands: readonly SheetArea[];
  /** Cells that it divides by. */
  readonly divisors: readonly SheetArea[];
  /** Areas it tests for containing only numbers: COUNTA(…)<>COUNT(…). */
  readonly numbersOnly: readonly SheetArea[];
}

const arithmetic = new Set(["+", "-", "*", "/", "^"]);

/** Reads the formulas of one book. */
export class FormulaReader {
  private readonly formulas: BookFormulas;

  constructor(book: Book) {
    this.formulas = recallFormulas(book);
  }

  /** What the formula of a cell reads. */
  reads(text: string, place: Place): FormulaReads {
    const found = { areas: [], lookUps: [], operands: [], divisors: [], numbersOnly: [] };
    for (const node of listDescendants(parseFormula(text, place.row, place.column).root)) this.note(node, place, found);
    return found;
  }

  private note(node: Node, place: Place, found: Found): void {
    const area = this.findArea(node, place);
    if (area) found.areas.push(area);
    if (node.type === "operation" && arithmetic.has(node.operator)) {
      for (const side of [node.left, node.right]) {
        const operand = this.findArea(side, place);
        if (operand && isSingleCell(operand)) found.operands.push(operand);
      }
      const divisor = node.operator === "/" ? this.findArea(node.right, place) : undefined;
      if (divisor && isSingleCell(divisor)) found.divisors.push(divisor);
    }
    const numbersOnly = this.findNumbersOnly(node, place);
    if (numbersOnly) found.numbersOnly.push(numbersOnly);
    const lookUp = this.lookUpOf(node, place);
    if (lookUp) found.lookUps.push(lookUp);
  }

  private findNumbersOnly(node: Node, place: Place): SheetArea | undefined {
    if (node.type !== "operation" || node.operator !== "<>") return undefined;
    const [all, numbers] = [node.left, node.right];
    if (all.type !== "call" || numbers.type !== "call" || all.name !== "COUNTA" || numbers.name !== "COUNT")
      return undefined;
    const [counted] = all.arguments;
    return counted ? this.findArea(counted, place) : undefined;
  }

  private lookUpOf(node: Node, place: Place): LookUp | undefined {
    if (node.type !== "call") return undefined;
    const [wanted, table] = node.arguments;
    if (!wanted || !table) return undefined;
    const list = this.findArea(table, place);
    if (!list) return undefined;
    const key = this.findArea(wanted, place) ?? (wanted.type === "constant" ? wanted.value : undefined);
    if (key === undefined) return undefined;
    switch (node.name) {
      case "MATCH":
      case "XMATCH":
      case "XLOOKUP":
        return { wanted: key, list };
      case "VLOOKUP":
        return { wanted: key, list: { ...list, right: list.left } };
      case "HLOOKUP":
        return { wanted: key, list: { ...list, bottom: list.top } };
      default:
        return undefined;
    }
  }

  /** The area a node refers to directly, or through a name. */
  private findArea(node: Node, place: Place): SheetArea | undefined {
    if (node.type === "area") {
      const [area, ...more] = this.formulas.resolveAreas(node, place);
      return more.length === 0 ? area : undefined;
    }
    if (node.type !== "name") return undefined;
    const meant = this.formulas.resolveName(node, place)?.root;
    return meant?.type === "area" ? this.findArea(meant, place) : undefined;
  }
}

interface Found {
  readonly areas: SheetArea[];
  readonly lookUps: LookUp[];
  readonly operands: SheetArea[];
  readonly divisors: SheetArea[];
  readonly numbersOnly: SheetArea[];
}
