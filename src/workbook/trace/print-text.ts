import { outlineOf, type Line } from "./outline";
import { detailsOf, kindText, titleOf, valueText } from "./telling";
import type { Trace } from "./tree";

const deepestIndent = 24;
const longestDetail = 400;
const mostInputs = 40;

/** A trace as lines of plain text, one for each place and its details below it. */
export function traceAsText(trace: Trace): string[] {
  const lines = outlineOf(trace, 200).flatMap(linesOf);
  return [...lines, "", ...inputLines(trace)];
}

function linesOf(line: Line): string[] {
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
