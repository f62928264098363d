import type { Slot } from "../formula/grid/slot";
import { unrollChain, type Node, type OperationNode } from "../formula/parse/syntax";
import { isArea } from "../formula/references/reference-values";
import { pickImplicitCell } from "../formula/references/references";
import { Reference } from "../formula/values/value";
import { isSingleCell, isWithin, type SheetArea } from "../book/area";
import { ErrorValue } from "../model";
import { addInWords, callWords } from "./explain-calls";
import {
  type Findings,
  type Read,
  resolveReference,
  type Spot,
  type Tools,
  evaluateNode,
  type Walker,
  word,
  type Words,
} from "./explanation";

/** What one formula does, in words, and the cells it read for its result. */
export interface Explanation {
  readonly words: string;
  /** Why the applied branches were chosen. */
  readonly reasons: readonly string[];
  readonly reads: readonly Read[];
  readonly notes: readonly string[];
  readonly calls: readonly string[];
}

/** Explains the formula in a cell. */
export function explain(slot: Slot, tools: Tools, now: Date | undefined): Explanation {
  const { formula, parsed, sheet, row, column } = slot;
  if (!formula || !parsed) return { words: "", reasons: [], reads: [], notes: [], calls: [] };
  const isArray = formula.array !== undefined || formula.dynamic === true;
  const kind = formula.dynamic ? "dynamic" : isArray ? "braces" : "ordinary";
  const frame = { sheet, row, column, kind, scope: undefined, now } as const;
  const walker = new FormulaWalker(tools);
  const spot: Spot = {
    frame,
    way: isArray ? "array" : "cell",
    role: "",
    unsure: false,
    single: !isArray,
    depth: 0,
  };
  const { text } = walker.walk(parsed.root, spot);
  const { reads, reasons, notes, calls } = walker.findings;
  return { words: text, reasons: [...reasons], reads: removeRepeats(reads), notes: [...notes], calls: [...calls] };
}

/** An area read twice is reported once; being read for a result takes precedence over being read in a condition. */
function removeRepeats(reads: readonly Read[]): Read[] {
  const kept = new Map<string, Read>();
  for (const read of reads) {
    const { sheet, top, left, bottom, right } = read.area;
    const key = [sheet, top, left, bottom, right].join(" ");
    const earlier = kept.get(key);
    if (!earlier || (earlier.role === "condition" && read.role !== "condition")) kept.set(key, read);
  }
  return [...kept.values()];
}

const deepestName = 8;
/** The most parts of one formula put into words, including those of the names it uses; and how deep they may nest. */
const mostParts = 20_000;
const deepest = 150;

/** The parts joined by a range, union or intersection. */
function listParts(node: Node & { type: "join" }): Node[] {
  const { first, steps } = unrollChain(node);
  return [first, ...steps.map(({ right }) => right)];
}

/** Walks through a formula part by part: puts it into words, and notes which cells it read for its result. */
class FormulaWalker implements Walker {
  readonly findings: Findings = { reads: [], reasons: new Set(), notes: new Set(), calls: new Set() };

  private parts = 0;
  private depth = 0;

  constructor(readonly tools: Tools) {}

  read(reference: Reference, role: string): void {
    for (const area of reference.areas) this.findings.reads.push({ area, role });
  }

  nameReference(reference: Reference): string {
    return reference.areas.map((area) => this.tools.nameArea(area)).join(" and ");
  }

  walk(node: Node | null | undefined, spot: Spot): Words {
    if (!node) return word("nothing");
    this.parts += 1;
    if (this.parts > mostParts || this.depth >= deepest) {
      this.findings.notes.add("the formula has too many parts to trace");
      return word("…");
    }
    this.depth += 1;
    try {
      return this.describeNode(node, spot);
    } finally {
      this.depth -= 1;
    }
  }

  private describeNode(node: Node, spot: Spot): Words {
    switch (node.type) {
      case "constant":
        return word(this.tools.nameValue(node.value));
      case "array":
        return word(`the ${String(node.values.length)} values written in the formula`);
      case "area":
      case "table":
      case "spill":
      case "join":
        return this.explainReference(node, spot);
      case "name":
        return this.name(node, spot);
      case "sign":
        return explainSign(this, node, spot);
      case "operation":
        return explainOperation(this, node, spot);
      case "single":
        return this.walk(node.operand, { ...spot, single: true });
      case "call":
        return callWords(this, node, spot);
      case "addIn":
        return addInWords(this, node, spot);
      case "let":
        return letWords(this, node, spot);
      case "lambda":
        return explainLambda(this, node, spot);
      case "apply": {
        const words = [node.callee, ...node.arguments].map((part) => this.walk(part, { ...spot, single: false }).text);
        return word(words.join(" with "));
      }
      case "external":
        this.findings.notes.add("it reads another workbook, of which this file keeps values");
        return word("a value kept of another workbook");
      case "refused":
        this.findings.notes.add(node.reason);
        return word(`something that cannot be traced (${node.reason})`);
    }
  }

  private explainReference(node: Node, spot: Spot): Words {
    const reference = resolveReference(this, node, { ...spot, unsure: false });
    if (reference) {
      if (node.type === "join") this.followEnds(node, reference, spot);
      return this.readCells(reference, spot);
    }
    if (node.type === "join")
      return word(
        listParts(node)
          .map((part) => this.walk(part, spot).text)
          .join(" to "),
      );
    if (node.type === "spill") return this.walk(node.operand, spot);
    const value = evaluateNode(this, node, { ...spot, unsure: false });
    return word(value instanceof ErrorValue ? value.code : "an unresolvable range");
  }

  /** What the ends of a range such as A1:INDEX(A:A,B1) depend on, besides the cells of the range itself. */
  private followEnds(node: Node & { type: "join" }, reference: Reference, spot: Spot): void {
    const before = this.findings.reads.length;
    for (const end of listParts(node))
      if (end.type !== "area") this.walk(end, { ...spot, role: "place", single: false });
    const found = this.findings.reads.splice(before);
    const isOfRange = (area: SheetArea): boolean =>
      reference.areas.some((whole) => area.sheet === whole.sheet && isWithin(area, whole));
    this.findings.reads.push(...found.filter(({ area }) => !isOfRange(area)));
  }

  /** The cells of a reference: a single one where an ordinary formula takes one. */
  private readCells(reference: Reference, { single, frame, way, role }: Spot): Words {
    if (single && way !== "array" && reference.area && !isSingleCell(reference.area)) {
      const cell = pickImplicitCell(reference, frame);
      if (!isArea(cell)) return word(cell instanceof ErrorValue ? cell.code : "");
      return this.readCells(new Reference([cell]), { single, frame, way, role, unsure: false, depth: 0 });
    }
    this.read(reference, role);
    return word(this.nameReference(reference));
  }

  name(node: Node & { type: "name" }, spot: Spot): Words {
    const lower = node.name.toLowerCase();
    for (let scope = node.sheet === "" ? spot.frame.scope : undefined; scope; scope = scope.outer)
      if (scope.names.has(lower)) return word(node.name);
    const found = this.tools.names.find(lower, node.sheet, spot.frame.sheet);
    if (found === undefined || found instanceof ErrorValue) {
      if (!spot.unsure) this.findings.notes.add(`no name ${node.name} is defined here`);
      return word(node.name);
    }
    const reference = resolveReference(this, node, { ...spot, unsure: false });
    if (reference) return { ...this.readCells(reference, spot), text: node.name };
    if (spot.depth >= deepestName) return word(node.name);
    const frame = { ...spot.frame, scope: undefined };
    const inside = this.walk(found.root, { ...spot, frame, way: "array", depth: spot.depth + 1 });
    return word(`${node.name} (${inside.text})`);
  }
}

/** Its arguments are unknown, so nothing inside it can be evaluated. */
function explainLambda(walker: Walker, node: Node & { type: "lambda" }, spot: Spot): Words {
  const names = new Map(node.parameters.map((parameter) => [parameter, null]));
  const scope = { names, outer: spot.frame.scope };
  return walker.walk(node.body, { ...spot, unsure: true, frame: { ...spot.frame, scope } });
}

/** LET: each name with its definition, in an order in which they can build on each other. */
function letWords(walker: Walker, node: Node & { type: "let" }, spot: Spot): Words {
  let { scope } = spot.frame;
  const parts: string[] = [];
  for (const [place, name] of node.names.entries()) {
    const part = node.values[place];
    if (!part) continue;
    const here = { ...spot, frame: { ...spot.frame, scope }, single: false };
    parts.push(`${name} = ${walker.walk(part, here).text}`);
    const value = evaluateNode(walker, part, here);
    scope = { names: new Map([[name, value ?? null]]), outer: scope };
    if (value === undefined)
      return explainUnknownLet(walker, node, parts, { ...spot, frame: { ...spot.frame, scope } }, place);
  }
  const body = walker.walk(node.body, { ...spot, frame: { ...spot.frame, scope } });
  return { text: `${body.text}, with ${parts.join(", ")}`, rank: 0 };
}

/** A part that cannot be evaluated leaves everything after it undetermined. */
function explainUnknownLet(
  walker: Walker,
  node: Node & { type: "let" },
  parts: string[],
  spot: Spot,
  done: number,
): Words {
  let { scope } = spot.frame;
  for (const name of node.names.slice(done + 1)) scope = { names: new Map([[name, null]]), outer: scope };
  const open = { ...spot, unsure: true, frame: { ...spot.frame, scope } };
  for (const [place, part] of node.values.entries())
    if (place > done) parts.push(`${node.names[place] ?? ""} = ${walker.walk(part, open).text}`);
  return { text: `${walker.walk(node.body, open).text}, with ${parts.join(", ")}`, rank: 0 };
}

const ranks: Readonly<Record<string, number>> = { "^": 6, "*": 5, "/": 5, "+": 4, "-": 4, "&": 3 };
const signs: Readonly<Record<string, string>> = { "*": "×", "/": "÷", "-": "−", "<=": "≤", ">=": "≥", "<>": "≠" };

/** A part with a sign before it, or a per cent sign after it. */
function explainSign(walker: Walker, node: Node & { type: "sign" }, spot: Spot): Words {
  const inner = walker.walk(node.operand, { ...spot, single: true });
  // In Excel a sign binds tighter than a power: −2^2 means (−2)^2.
  const text = inner.rank < 7 ? `(${inner.text})` : inner.text;
  return { text: node.operator === "%" ? `${text} %` : node.operator === "-" ? `−${text}` : text, rank: 5.5 };
}

/** Two parts and their operator, with parentheses only where needed; a chain a+b−c is taken step by step. */
function explainOperation(walker: Walker, node: OperationNode, spot: Spot): Words {
  const { first, steps } = unrollChain(node);
  const part = (one: Node): Words => walker.walk(one, { ...spot, single: true });
  return steps.reduce((before, { operator, right }) => joinOperands(before, operator, part(right)), part(first));
}

function joinOperands(first: Words, operator: OperationNode["operator"], second: Words): Words {
  const rank = ranks[operator] ?? 2;
  const encloseSide = (words: Words, least: number): string => (words.rank < least ? `(${words.text})` : words.text);
  // Excel evaluates powers from the left; on paper 2^3^2 is read from the right.
  const left = encloseSide(first, operator === "^" ? rank + 1 : rank);
  const isLoose = operator === "+" || operator === "*" || operator === "&";
  const right = encloseSide(second, isLoose ? rank : rank + 1);
  const sign = signs[operator] ?? operator;
  return { text: sign === "^" ? `${left}^${right}` : `${left} ${sign} ${right}`, rank };
}
