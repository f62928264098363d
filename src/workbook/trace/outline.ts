import { shorten } from "../file/problem";
import { describeValue, type TracedPlace, type Trace } from "./tree";

/** One printed line of a trace. */
export interface Line {
  readonly place: TracedPlace;
  /** Numbered in line order; a place keeps its number wherever it recurs. */
  readonly number: number;
  readonly depth: number;
  readonly role: string;
  /** In full here; already described above; or described further down, because the nesting became too deep. */
  readonly form: "full" | "again" | "later";
}

/**
 * The places in reading order: each below its dependent, in full at its first occurrence. Anything deeper than
 * `deepest` is described at the end, at the margin, so that nesting stays bounded.
 */
export function outlineOf({ places }: Trace, deepest = 40): Line[] {
  const lines: Line[] = [];
  const numbers = new Map<number, number>();
  const told = new Set<number>();
  const later: number[] = [0];
  const assignNumber = (id: number): number => {
    let number = numbers.get(id);
    if (number === undefined) numbers.set(id, (number = numbers.size + 1));
    return number;
  };
  for (const start of later) {
    if (told.has(start)) continue;
    const stack = [{ id: start, depth: 0, role: "" }];
    for (let next = stack.pop(); next; next = stack.pop()) {
      const { id, depth, role } = next;
      const place = places[id] as TracedPlace;
      const number = assignNumber(id);
      if (told.has(id)) {
        lines.push({ place, number, depth, role, form: "again" });
        continue;
      }
      if (depth > deepest) {
        lines.push({ place, number, depth, role, form: "later" });
        later.push(id);
        continue;
      }
      told.add(id);
      lines.push({ place, number, depth, role, form: "full" });
      for (const { node, role: purpose } of [...place.branches].reverse())
        stack.push({ id: node, depth: depth + 1, role: purpose });
    }
  }
  return lines;
}

/** What a cell or range is called: its label, its symbol. */
export function composeTitle({ label, symbol, name }: TracedPlace): string {
  const words = shorten(label || name);
  return symbol === "" || words.includes(symbol) ? words : words === "" ? symbol : `${words} (${symbol})`;
}

/** "0.5022122 1/h", or for a range "7 readings, −60.1 … −11.4 Pa". */
export function formatValue(place: TracedPlace): string {
  const { spread, unit, notEvaluated, shown, kind } = place;
  if (spread) return spreadText(place);
  if (notEvaluated !== undefined) return `not evaluated: ${notEvaluated}`;
  if (kind === "blank") return "blank";
  if (shown !== "") return shown;
  const text = describeValue(place.value);
  return unit === "" ? text : `${text} ${unit}`;
}

function spreadText({ spread, unit, members = [] }: TracedPlace): string {
  if (!spread) return "";
  const { cells, blank, numbers, lowest, highest } = spread;
  const parts = [`${String(cells)} cells`];
  const texts = [
    ...new Set(members.flatMap(({ value }) => (typeof value === "string" && value !== "" ? [value] : []))),
  ];
  if (numbers > 0) {
    const ends = lowest === highest ? describeValue(lowest) : `${describeValue(lowest)} … ${describeValue(highest)}`;
    parts.push(
      `${numbers === cells ? "" : `${String(numbers)} ${numbers === 1 ? "number" : "numbers"} `}${ends}${unit === "" ? "" : ` ${unit}`}`,
    );
  }
  if (texts.length > 0) {
    const few = texts.slice(0, 3).map((text) => describeValue(text));
    parts.push(`text ${few.join(", ")}${texts.length > 3 ? " …" : ""}`);
  }
  if (blank > 0) parts.push(`${String(blank)} blank`);
  return parts.join(", ");
}

/** The word for the kind of place. */
export function describeKind({ kind, spread, members = [] }: TracedPlace): string {
  if (kind === "input") return "typed in";
  if (kind === "blank") return "blank cell";
  if (kind === "spilled") return spread ? "filled by one formula" : "filled by a formula elsewhere";
  if (kind === "formulas") return `${String(spread?.cells ?? 0)} cells with the same formula`;
  if (kind === "range") {
    if (members.some((member) => member.kind === "formula" || member.kind === "filled")) return "several cells";
    return members.some((member) => member.kind === "input") ? "typed in" : "blank cells";
  }
  return "";
}

/** The lines of detail under a place, each with its heading. */
export function listDetails({
  formula,
  words,
  reasons,
  example,
  functions,
  source,
  notes,
  cut,
  branches,
}: TracedPlace): [name: string, text: string][] {
  const details: [string, string][] = [];
  if (words !== undefined && words !== "") details.push(["in words", words]);
  if (reasons.length > 0) details.push(["because", reasons.join("; ")]);
  if (formula !== undefined) details.push(["formula", formula]);
  if (example !== undefined) details.push(["shown for", example]);
  for (const { id, equation, source: ofFunction } of functions) {
    if (equation !== "") details.push(["equation", functions.length > 1 ? `${id}: ${equation}` : equation]);
    if (ofFunction !== "") details.push(["source", functions.length > 1 ? `${id}: ${ofFunction}` : ofFunction]);
  }
  if (source !== undefined) details.push(["source", source]);
  for (const note of notes) details.push(["note", note]);
  if (cut) details.push(["note", "its precedents are not shown: the requested depth ends here"]);
  else if (formula !== undefined && branches.length === 0 && notes.length === 0)
    details.push(["note", "reads no other cell: its inputs are in the formula"]);
  return details;
}
