import { ErrorValue } from "../model";
import { kindAt } from "./argument-kinds";
import { ordinaryFunctions } from "../formula/functions/index";
import { implicitCell } from "../formula/references";
import { isArea } from "../formula/reference-values";
import type { Node } from "../formula/syntax";
import { isSingleCell, isWithin, Reference, type SheetArea } from "../formula/value";
import { letWords, lambdaWords } from "./bindings";
import { branchWords } from "./branches";
import { lookUpWords } from "./look-ups";
import { nativeWords } from "./native-words";
import { referenceOf, valueOf, word, type Findings, type Spot, type Tools, type Walker, type Words } from "./walk";

const ranks: Readonly<Record<string, number>> = { "^": 6, "*": 5, "/": 5, "+": 4, "-": 4, "&": 3 };
const signs: Readonly<Record<string, string>> = { "*": "×", "/": "÷", "-": "−", "<=": "≤", ">=": "≥", "<>": "≠" };
const deepestName = 8;

/** Walks through a formula part by part: puts it into words, and notes which cells it read to come to its result. */
export class FormulaWalker implements Walker {
  readonly findings: Findings = { reads: [], reasons: new Set(), notes: new Set(), calls: new Set() };

  constructor(readonly tools: Tools) {}

  read(reference: Reference, role: string): void {
    for (const area of reference.areas) this.findings.reads.push({ area, role });
  }

  named(reference: Reference): string {
    return reference.areas.map((area) => this.tools.nameArea(area)).join(" and ");
  }

  walk(node: Node | null | undefined, spot: Spot): Words {
    if (!node) return word("nothing");
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
        return this.sign(node, spot);
      case "operation":
        return this.operation(node, spot);
      case "single":
        return this.walk(node.operand, { ...spot, single: true });
      case "call":
        return this.call(node, spot);
      case "addIn":
        return this.addIn(node, spot);
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
    if (node.type === "join") return word(`${this.walk(node.left, spot).text} to ${this.walk(node.right, spot).text}`);
    if (node.type === "spill") return this.walk(node.operand, spot);
    const value = valueOf(this, node, { ...spot, unsure: false });
    return word(value instanceof ErrorValue ? value.code : "a range that cannot be told");
  }

  /** What the ends of a range such as A1:INDEX(A:A,B1) depend on, beyond the cells of the range itself. */
  private ends(node: Node & { type: "join" }, reference: Reference, spot: Spot): void {
    const before = this.findings.reads.length;
    for (const end of [node.left, node.right])
      if (end.type !== "area") this.walk(end, { ...spot, role: "place", single: false });
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

  private name(node: Node & { type: "name" }, spot: Spot): Words {
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

  private sign(node: Node & { type: "sign" }, spot: Spot): Words {
    const inner = this.walk(node.operand, { ...spot, single: true });
    // A sign binds closer than a power in Excel: (−2)^2 is what −2^2 means there.
    const text = inner.rank < 7 ? `(${inner.text})` : inner.text;
    return { text: node.operator === "%" ? `${text} %` : node.operator === "-" ? `−${text}` : text, rank: 5.5 };
  }

  private operation(node: Node & { type: "operation" }, spot: Spot): Words {
    const rank = ranks[node.operator] ?? 2;
    const side = (part: Node, least: number): string => {
      const words = this.walk(part, { ...spot, single: true });
      return words.rank < least ? `(${words.text})` : words.text;
    };
    const left = side(node.left, rank);
    const isLoose = node.operator === "+" || node.operator === "*" || node.operator === "&";
    const right = side(node.right, isLoose ? rank : rank + 1);
    const sign = signs[node.operator] ?? node.operator;
    return { text: sign === "^" ? `${left}^${right}` : `${left} ${sign} ${right}`, rank };
  }

  private call(node: Node & { type: "call" }, spot: Spot): Words {
    const special = branchWords(this, node.name, node.arguments, spot) ?? this.lookUp(node, spot);
    if (special) return special;
    const entry = Object.hasOwn(ordinaryFunctions, node.name) ? ordinaryFunctions[node.name] : undefined;
    if (!entry && this.tools.names.find(node.name.toLowerCase(), "", spot.frame.sheet) !== undefined) {
      const named = this.name({ type: "name", name: node.name, sheet: "" }, { ...spot, unsure: true });
      const given = node.arguments.map((part) => this.walk(part, { ...spot, single: false }).text);
      return word(`${named.text} with ${given.join(", ")}`);
    }
    const given = node.arguments.map((part, place) => {
      const kind = entry && kindAt(entry, place);
      const single = kind === "number" || kind === "text" || kind === "logical" || kind === "scalar" || kind === "any";
      const whole = kind === "array" || kind === "table";
      const way = whole ? "array" : spot.way === "cell" ? "nested" : spot.way;
      return part ? this.walk(part, { ...spot, way, single }) : word("nothing");
    });
    return nativeWords(node.name, given);
  }

  /** What the look-up noted before it gave up would be told twice; so its reads are kept only where it succeeds. */
  private lookUp(node: Node & { type: "call" }, spot: Spot): Words | undefined {
    const before = this.findings.reads.length;
    const words = lookUpWords(this, node, spot);
    if (!words) this.findings.reads.length = before;
    return words;
  }

  private addIn(node: Node & { type: "addIn" }, spot: Spot): Words {
    const id = node.id.toUpperCase();
    this.findings.calls.add(id);
    const note = this.tools.functions.get(id);
    if (!note) this.findings.notes.add(`the add-in has no function ${id}`);
    const way = spot.way === "cell" ? "nested" : spot.way;
    const given = node.arguments.flatMap((part, place) => {
      if (!part) return [];
      const role = note?.parameters[Math.min(place, note.parameters.length - 1)] ?? "";
      const words = this.walk(part, { ...spot, way, role, single: false });
      return [role === "" ? words.text : `${role}: ${words.text}`];
    });
    return word(`${note?.does ?? id}${given.length > 0 ? ` (${given.join("; ")})` : ""}`);
  }
}
