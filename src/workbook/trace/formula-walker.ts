import { ErrorValue } from "../model";
import { implicitCell } from "../formula/references/references";
import { isArea } from "../formula/references/reference-values";
import { chainOf, type Node } from "../formula/parse/syntax";
import { isSingleCell, isWithin, Reference, type SheetArea } from "../formula/values/value";
import { letWords, lambdaWords } from "./bindings";
import { addInWords, callWords } from "./call-words";
import { operationWords, signWords } from "./operation-words";
import { referenceOf, valueOf, word, type Findings, type Spot, type Tools, type Walker, type Words } from "./walk";

const deepestName = 8;
/** Parts of one formula that are put into words, with those of the names that it uses; and how deep they may be nested. */
const mostParts = 20_000;
const deepest = 150;

/** The parts that a range, union or intersection joins. */
function partsOf(node: Node & { type: "join" }): Node[] {
  const { first, steps } = chainOf(node);
  return [first, ...steps.map(({ right }) => right)];
}

/** Walks through a formula part by part: puts it into words, and notes which cells it read to come to its result. */
export class FormulaWalker implements Walker {
  readonly findings: Findings = { reads: [], reasons: new Set(), notes: new Set(), calls: new Set() };

  private parts = 0;
  private depth = 0;

  constructor(readonly tools: Tools) {}

  read(reference: Reference, role: string): void {
    for (const area of reference.areas) this.findings.reads.push({ area, role });
  }

  named(reference: Reference): string {
    return reference.areas.map((area) => this.tools.nameArea(area)).join(" and ");
  }

  walk(node: Node | null | undefined, spot: Spot): Words {
    if (!node) return word("nothing");
    this.parts += 1;
    if (this.parts > mostParts || this.depth >= deepest) {
      this.findings.notes.add("the formula has more parts than are followed");
      return word("…");
    }
    this.depth += 1;
    try {
      return this.wordsOf(node, spot);
    } finally {
      this.depth -= 1;
    }
  }

  private wordsOf(node: Node, spot: Spot): Words {
    switch (node.type) {
      case "constant":
        return word(this.tools.nameValue(node.value));
      case "array":
        return word(`the ${String(node.values.length)} values written in the formula`);
      case "area":
      case "table":
      case "spill":
      case "join":
        return this.reference(node, spot);
      case "name":
        return this.name(node, spot);
      case "sign":
        return signWords(this, node, spot);
      case "operation":
        return operationWords(this, node, spot);
      case "single":
        return this.walk(node.operand, { ...spot, single: true });
      case "call":
        return callWords(this, node, spot);
      case "addIn":
        return addInWords(this, node, spot);
      case "let":
        return letWords(this, node, spot);
      case "lambda":
        return lambdaWords(this, node, spot);
      case "apply": {
        const words = [node.callee, ...node.arguments].map((part) => this.walk(part, { ...spot, single: false }).text);
        return word(words.join(" with "));
      }
      case "refused":
        this.findings.notes.add(node.reason);
        return word(`something that cannot be followed (${node.reason})`);
    }
  }

  private reference(node: Node, spot: Spot): Words {
    const reference = referenceOf(this, node, { ...spot, unsure: false });
    if (reference) {
      if (node.type === "join") this.ends(node, reference, spot);
      return this.cells(reference, spot);
    }
    if (node.type === "join")
      return word(
        partsOf(node)
          .map((part) => this.walk(part, spot).text)
          .join(" to "),
      );
    if (node.type === "spill") return this.walk(node.operand, spot);
    const value = valueOf(this, node, { ...spot, unsure: false });
    return word(value instanceof ErrorValue ? value.code : "a range that cannot be told");
  }

  /** What the ends of a range such as A1:INDEX(A:A,B1) depend on, beyond the cells of the range itself. */
  private ends(node: Node & { type: "join" }, reference: Reference, spot: Spot): void {
    const before = this.findings.reads.length;
    for (const end of partsOf(node)) if (end.type !== "area") this.walk(end, { ...spot, role: "place", single: false });
    const found = this.findings.reads.splice(before);
    const isOfRange = (area: SheetArea): boolean =>
      reference.areas.some((whole) => area.sheet === whole.sheet && isWithin(area, whole));
    this.findings.reads.push(...found.filter(({ area }) => !isOfRange(area)));
  }

  /** The cells of a reference: one only, where an ordinary formula wants one. */
  private cells(reference: Reference, { single, frame, way, role }: Spot): Words {
    if (single && way !== "array" && reference.area && !isSingleCell(reference.area)) {
      const cell = implicitCell(reference, frame);
      if (!isArea(cell)) return word(cell instanceof ErrorValue ? cell.code : "");
      return this.cells(new Reference([cell]), { single, frame, way, role, unsure: false, depth: 0 });
    }
    this.read(reference, role);
    return word(this.named(reference));
  }

  name(node: Node & { type: "name" }, spot: Spot): Words {
    const lower = node.name.toLowerCase();
    for (let scope = node.sheet === "" ? spot.frame.scope : undefined; scope; scope = scope.outer)
      if (scope.names.has(lower)) return word(node.name);
    const found = this.tools.names.find(lower, node.sheet, spot.frame.sheet);
    if (found === undefined || found instanceof ErrorValue) {
      if (!spot.unsure) this.findings.notes.add(`the name ${node.name} means nothing here`);
      return word(node.name);
    }
    const reference = referenceOf(this, node, { ...spot, unsure: false });
    if (reference) return { ...this.cells(reference, spot), text: node.name };
    if (spot.depth >= deepestName) return word(node.name);
    const frame = { ...spot.frame, scope: undefined };
    const inside = this.walk(found.root, { ...spot, frame, way: "array", depth: spot.depth + 1 });
    return word(`${node.name} (${inside.text})`);
  }
}
