import { ErrorValue } from "../model";
import { ordinaryFunctions } from "../formula/functions/index";
import { implicitCell } from "../formula/references";
import { isArea } from "../formula/reference-values";
import type { Slot } from "../formula/slot";
import type { Node } from "../formula/syntax";
import { isSingleCell, Reference } from "../formula/value";
import { branchWords } from "./branches";
import { lookUpWords } from "./look-ups";
import { nativeWords } from "./native-words";
import {
  referenceOf,
  valueOf,
  word,
  type Findings,
  type Read,
  type Spot,
  type Tools,
  type Walker,
  type Words,
} from "./walk";

/** What one formula does: in words, and which cells it read to come to its result. */
export interface Explanation {
  readonly words: string;
  /** Why the branches that counted did. */
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
  return { words: text, reasons: [...reasons], reads: withoutRepeats(reads), notes: [...notes], calls: [...calls] };
}

/** An area read twice is told once; to be read for a result says more than to be asked in a condition. */
function withoutRepeats(reads: readonly Read[]): Read[] {
  const kept = new Map<string, Read>();
  for (const read of reads) {
    const { sheet, top, left, bottom, right } = read.area;
    const key = [sheet, top, left, bottom, right].join(" ");
    const earlier = kept.get(key);
    if (!earlier || (earlier.role === "condition" && read.role !== "condition")) kept.set(key, read);
  }
  return [...kept.values()];
}

const ranks: Readonly<Record<string, number>> = { "^": 6, "*": 5, "/": 5, "+": 4, "-": 4, "&": 3 };
const signs: Readonly<Record<string, string>> = { "*": "×", "/": "÷", "-": "−", "<=": "≤", ">=": "≥", "<>": "≠" };
const deepestName = 8;

class FormulaWalker implements Walker {
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
        return this.let(node, spot);
      case "lambda":
        return this.lambda(node, spot);
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
    if (reference) return this.cells(reference, spot);
    if (node.type === "join") return word(`${this.walk(node.left, spot).text} to ${this.walk(node.right, spot).text}`);
    if (node.type === "spill") return this.walk(node.operand, spot);
    const value = valueOf(this, node, { ...spot, unsure: false });
    return word(value instanceof ErrorValue ? value.code : "a range that cannot be told");
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
    const way = spot.way === "cell" ? "nested" : spot.way;
    const given = node.arguments.map((part, place) => {
      const kind = entry?.kinds[Math.min(place, entry.kinds.length - 1)];
      const single = kind === "number" || kind === "text" || kind === "logical" || kind === "scalar" || kind === "any";
      return part ? this.walk(part, { ...spot, way, single }).text : "nothing";
    });
    return word(nativeWords(node.name, given));
  }

  /** What the look-up noted before it gave up would be told twice; so its reads are kept only where it succeeds. */
  private lookUp(node: Node & { type: "call" }, spot: Spot): Words | undefined {
    const before = this.findings.reads.length;
    const words = lookUpWords(this, node, spot);
    if (!words) this.findings.reads.length = before;
    return words;
  }

  /** What its arguments will be is not known, so nothing inside it can be evaluated. */
  private lambda(node: Node & { type: "lambda" }, spot: Spot): Words {
    const names = new Map(node.parameters.map((parameter) => [parameter, null]));
    const scope = { names, outer: spot.frame.scope };
    return this.walk(node.body, { ...spot, unsure: true, frame: { ...spot.frame, scope } });
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

  private let(node: Node & { type: "let" }, spot: Spot): Words {
    let { scope } = spot.frame;
    const parts: string[] = [];
    for (const [place, name] of node.names.entries()) {
      const part = node.values[place];
      if (!part) continue;
      const here = { ...spot, frame: { ...spot.frame, scope }, single: false };
      parts.push(`${name} = ${this.walk(part, here).text}`);
      const value = valueOf(this, part, here);
      scope = { names: new Map([[name, value ?? null]]), outer: scope };
      if (value === undefined) return this.unknownLet(node, parts, { ...spot, frame: { ...spot.frame, scope } }, place);
    }
    const body = this.walk(node.body, { ...spot, frame: { ...spot.frame, scope } });
    return { text: `${body.text}, with ${parts.join(", ")}`, rank: 0 };
  }

  /** A part that cannot be evaluated leaves everything after it open. */
  private unknownLet(node: Node & { type: "let" }, parts: string[], spot: Spot, done: number): Words {
    let { scope } = spot.frame;
    for (const name of node.names.slice(done + 1)) scope = { names: new Map([[name, null]]), outer: scope };
    const open = { ...spot, unsure: true, frame: { ...spot.frame, scope } };
    for (const [place, part] of node.values.entries())
      if (place > done) parts.push(`${node.names[place] ?? ""} = ${this.walk(part, open).text}`);
    return { text: `${this.walk(node.body, open).text}, with ${parts.join(", ")}`, rank: 0 };
  }
}
