import { outlineOf, type Line } from "./outline";
import { detailsOf, kindText, titleOf, valueText } from "./telling";
import type { Trace } from "./tree";

/** A trace as lines of Markdown: nested lists, each place with its details below it. */
export function traceAsMarkdown(trace: Trace, heading: string): string[] {
  const lines = outlineOf(trace, 12).flatMap(linesOf);
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

function linesOf({ place, number, depth, role, form }: Line): string[] {
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
