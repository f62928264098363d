import { type CellValue, ErrorValue } from "../model";
import { detailsOf, kindText, type Line, outlineOf, titleOf, valueText } from "./outline";
import type { Trace } from "./tree";

const deepestIndent = 24;
const longestDetail = 400;
const mostInputs = 40;

/** A trace as lines of plain text, one for each place and its details below it. */
export function traceAsText(trace: Trace): string[] {
  const lines = outlineOf(trace, 200).flatMap(textLines);
  return [...lines, "", ...inputLines(trace)];
}

function textLines(line: Line): string[] {
  const { place, number, depth, role, form } = line;
  const indent =
    "  ".repeat(Math.min(depth, deepestIndent)) + (depth > deepestIndent ? `(${String(depth)} steps) ` : "");
  const purpose = role === "" ? "" : `${role}: `;
  const title = titleOf(place);
  const head = `${indent}${purpose}${place.address}${title === "" ? "" : `  ${title}`} = ${valueText(place)}`;
  if (form !== "full") return [`${head}  → ${form === "again" ? "see" : "below,"} [${String(number)}]`];
  const kind = kindText(place);
  const details = detailsOf(place).map(([name, text]) => `${indent}    ${name}: ${cut(text)}`);
  return [`${head}  [${String(number)}]${kind === "" ? "" : `  (${kind})`}`, ...details];
}

function inputLines({ places, inputs }: Trace): string[] {
  const begin = places.some((place) => place.cut) ? "The steps shown reach" : "Rests on";
  if (inputs.length === 0) return [`${begin} no typed cell.`];
  const rest = inputs.length - mostInputs;
  const shown = inputs.slice(0, mostInputs).join(", ");
  const count = `${String(inputs.length)} typed cell${inputs.length === 1 ? "" : "s"}`;
  return [`${begin} ${count}: ${shown}${rest > 0 ? ` and ${String(rest)} more (--json lists all)` : ""}`];
}

const cut = (text: string): string => (text.length > longestDetail ? `${text.slice(0, longestDetail - 1)}…` : text);

/** A trace as lines of Markdown: nested lists, each place with its details below it. */
export function traceAsMarkdown(trace: Trace, heading: string): string[] {
  const lines = outlineOf(trace, 12).flatMap(markdownLines);
  const inputs = trace.inputs.length === 0 ? "It rests on no typed cell." : trace.inputs.map(code).join(", ");
  return [
    `# ${escaped(heading)}`,
    "",
    ...lines,
    "",
    `## Typed cells that it rests on: ${trace.inputs.length}`,
    "",
    inputs,
  ];
}

function markdownLines({ place, number, depth, role, form }: Line): string[] {
  const indent = "  ".repeat(depth);
  const purpose = role === "" ? "" : `${escaped(role)}: `;
  const head = `${indent}- ${purpose}${code(place.address)} ${escaped(titleOf(place))} = **${escaped(valueText(place))}**`;
  if (form !== "full") return [`${head} (${form === "again" ? "see" : "below,"} no. ${number})`];
  const kind = kindText(place);
  const details = detailsOf(place).map(([name, text]) => {
    const shown = name === "formula" ? code(text) : escaped(text);
    return `${indent}  - *${escaped(name)}:* ${shown}`;
  });
  return [`${head} (no. ${number}${kind === "" ? "" : `, ${kind}`})`, ...details];
}

/** Text on one line with Markdown's own signs made harmless. */
const escaped = (text: string): string => text.replace(/\s+/g, " ").replace(/[\\`*_[\]<>#|]/g, "\\$&");

/** A code span; the fence is longer than any run of backticks inside. */
function code(text: string): string {
  const longest = Math.max(0, ...(text.match(/`+/g) ?? []).map((run) => run.length));
  const fence = "`".repeat(longest + 1);
  return longest === 0 ? `${fence}${text}${fence}` : `${fence} ${text} ${fence}`;
}

/** A trace as JSON: every place once, in the order and with the numbers of the other forms; branches name places by number. */
export function traceAsJson(trace: Trace): string {
  const ids = new Map(trace.places.map((place, id) => [place, id]));
  const numbers = new Map<number, number>();
  for (const { place, number } of outlineOf(trace, Infinity)) {
    numbers.set(ids.get(place) ?? 0, number);
  }
  const places = [...numbers]
    .sort(([, a], [, b]) => a - b)
    .map(([id, number]) => {
      const { value, members, branches, ...rest } = trace.places[id] as Trace["places"][number];
      return {
        number,
        ...rest,
        value: plain(value),
        ...(members && { members: members.map((member) => ({ ...member, value: plain(member.value) })) }),
        branches: branches.map(({ role, node }) => ({ role, place: numbers.get(node) })),
      };
    });
  return JSON.stringify({ cell: trace.places[0]?.address, inputs: trace.inputs, places }, null, 2);
}

const plain = (value: CellValue): unknown => (value instanceof ErrorValue ? { error: value.code } : value);
