import { type CellValue, ErrorValue } from "../model";
import { listDetails, describeKind, type Line, outlineOf, composeTitle, formatValue } from "./outline";
import type { Trace } from "./tree";

const deepestIndent = 24;
const longestDetail = 400;
const mostInputs = 40;

/** A trace as lines of plain text, one per place with its details below. */
export function traceAsText(trace: Trace): string[] {
  const lines = outlineOf(trace, 200).flatMap(writeTextLines);
  return [...lines, "", ...writeInputLines(trace)];
}

function writeTextLines(line: Line): string[] {
  const { place, number, depth, role, form } = line;
  const indent =
    "  ".repeat(Math.min(depth, deepestIndent)) + (depth > deepestIndent ? `(${String(depth)} steps) ` : "");
  const purpose = role === "" ? "" : `${role}: `;
  const title = composeTitle(place);
  const head = `${indent}${purpose}${place.address}${title === "" ? "" : `  ${title}`} = ${formatValue(place)}`;
  if (form !== "full") return [`${head}  → ${form === "again" ? "see" : "below,"} [${String(number)}]`];
  const kind = describeKind(place);
  const details = listDetails(place).map(([name, text]) => `${indent}    ${name}: ${cut(text)}`);
  return [`${head}  [${String(number)}]${kind === "" ? "" : `  (${kind})`}`, ...details];
}

function writeInputLines({ places, inputs }: Trace): string[] {
  const begin = places.some((place) => place.cut) ? "The steps shown reach" : "Based on";
  if (inputs.length === 0) return [`${begin} no typed cell.`];
  const rest = inputs.length - mostInputs;
  const shown = inputs.slice(0, mostInputs).join(", ");
  const count = `${String(inputs.length)} typed cell${inputs.length === 1 ? "" : "s"}`;
  return [`${begin} ${count}: ${shown}${rest > 0 ? ` and ${String(rest)} more (--json lists all)` : ""}`];
}

const cut = (text: string): string => (text.length > longestDetail ? `${text.slice(0, longestDetail - 1)}…` : text);

/** A trace as lines of Markdown: nested lists, each place with its details below. */
export function traceAsMarkdown(trace: Trace, heading: string): string[] {
  const lines = outlineOf(trace, 12).flatMap(writeMarkdownLines);
  const inputs =
    trace.inputs.length === 0 ? "It depends on no typed cell." : trace.inputs.map(writeCodeSpan).join(", ");
  return [
    `# ${escapeMarkdown(heading)}`,
    "",
    ...lines,
    "",
    `## Typed cells it depends on: ${trace.inputs.length}`,
    "",
    inputs,
  ];
}

function writeMarkdownLines({ place, number, depth, role, form }: Line): string[] {
  const indent = "  ".repeat(depth);
  const purpose = role === "" ? "" : `${escapeMarkdown(role)}: `;
  const head = `${indent}- ${purpose}${writeCodeSpan(place.address)} ${escapeMarkdown(composeTitle(place))} = **${escapeMarkdown(formatValue(place))}**`;
  if (form !== "full") return [`${head} (${form === "again" ? "see" : "below,"} no. ${number})`];
  const kind = describeKind(place);
  const details = listDetails(place).map(([name, text]) => {
    const shown = name === "formula" ? writeCodeSpan(text) : escapeMarkdown(text);
    return `${indent}  - *${escapeMarkdown(name)}:* ${shown}`;
  });
  return [`${head} (no. ${number}${kind === "" ? "" : `, ${kind}`})`, ...details];
}

/** Text on one line with Markdown's special characters escaped. */
const escapeMarkdown = (text: string): string => text.replace(/\s+/g, " ").replace(/[\\`*_[\]<>#|]/g, "\\$&");

/** A code span; the fence is longer than any run of backticks inside. */
function writeCodeSpan(text: string): string {
  const longest = Math.max(0, ...(text.match(/`+/g) ?? []).map((run) => run.length));
  const fence = "`".repeat(longest + 1);
  return longest === 0 ? `${fence}${text}${fence}` : `${fence} ${text} ${fence}`;
}

/** A trace as JSON: every place once, in the order and with the numbers of the other forms; branches refer to places by number. */
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
        value: toPlainValue(value),
        ...(members && { members: members.map((member) => ({ ...member, value: toPlainValue(member.value) })) }),
        branches: branches.map(({ role, node }) => ({ role, place: numbers.get(node) })),
      };
    });
  return JSON.stringify({ cell: trace.places[0]?.address, inputs: trace.inputs, places }, null, 2);
}

const toPlainValue = (value: CellValue): unknown => (value instanceof ErrorValue ? { error: value.code } : value);
