import type { Slot } from "../formula/grid/slot";
import { FormulaWalker } from "./formula-walker";
import type { Read, Spot, Tools } from "./walk";

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
