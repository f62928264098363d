import { type Example, examples } from "../functions/examples";
import { formulaText } from "./call-text";
import { type Group, groups } from "./groups";
import { describeResultSize } from "../functions/result-sizes";
import { escapeHtml } from "../workbook/html";

interface Parameter {
  readonly name: string;
  readonly description?: string;
  readonly dimensionality?: string;
  readonly optional?: boolean;
}

/** A function as functions.json lists it, as far as a page shows it. */
export interface Entry {
  readonly id: string;
  readonly description?: string;
  readonly parameters: readonly Parameter[];
}

/** The parts of the page generated from functions.json, as HTML; made once, at build. */
export interface ReferencePage {
  readonly count: number;
  readonly navigation: string;
  readonly groups: string;
}

export interface FilledGroup extends Group {
  readonly entries: readonly Entry[];
}

/** The functions in their groups; those that belong to none go under "More functions". */
export function groupFunctions(functions: readonly Entry[]): FilledGroup[] {
  const byId = new Map(functions.map((entry) => [entry.id, entry]));
  const named = new Set(groups.flatMap((group) => group.ids));
  const rest = functions.map(({ id }) => id).filter((id) => !named.has(id));
  return [...groups, { name: "More functions", purpose: "", ids: rest }]
    .map((group) => ({ ...group, entries: group.ids.flatMap((id) => byId.get(id) ?? []) }))
    .filter((group) => group.entries.length > 0);
}

/** Writes the list of functions for the page. */
export function referencePage({ functions }: { readonly functions: readonly Entry[] }): ReferencePage {
  const all = groupFunctions(functions);
  return {
    count: functions.length,
    navigation: all.map(({ name }) => `<li><a href="#${anchor(name)}">${escapeHtml(name)}</a></li>`).join("\n"),
    groups: all.map(groupHtml).join("\n"),
  };
}

function groupHtml({ name, purpose, entries }: FilledGroup): string {
  return `<section class="group" aria-labelledby="${anchor(name)}">
<h2 id="${anchor(name)}">${escapeHtml(name)}</h2>
<p>${escapeHtml(purpose)}</p>
${entries.map(functionHtml).join("\n")}
</section>`;
}

function functionHtml(entry: Entry): string {
  return `<details class="function" id="${entry.id}">
<summary><code>${entry.id}</code><span class="brief">${escapeHtml(summarizeFunction(entry))}</span></summary>
<div class="details">
${describeFunction(entry, { heading: "h3", copies: true })}
</div>
</details>`;
}

/** What a function gives, in one line. */
export function summarizeFunction({ description = "" }: Entry): string {
  return briefOf(splitSource(description).text);
}

/** How a page shows a function: below which level of heading, and whether a script of its own can copy the example. */
interface Look {
  readonly heading: "h2" | "h3";
  readonly copies: boolean;
}

/** All that is known of a function, as HTML: signature, description, arguments, size, example, source. */
export function describeFunction({ id, description = "", parameters }: Entry, { heading, copies }: Look): string {
  const { text, source } = splitSource(description);
  // In a narrow or enlarged pane a long name may break after its underscores.
  const signature = parameters.map(({ name, optional }) => (optional ? `[${name}]` : name)).join(", ");
  const size = describeResultSize(id);
  const example = examples[id];
  const parts = [
    parameters.length > 0 && ["Arguments", `<dl class="arguments">${parameters.map(parameterHtml).join("\n")}</dl>`],
    size && ["Size of the result", `<p>${escapeHtml(size)}</p>`],
    example && ["Example", exampleHtml(id, example, copies)],
    source && ["Source", `<p class="source">${escapeHtml(source)}</p>`],
  ];
  return `<p class="signature"><code>STILLAIR.<wbr />${id}(<wbr />${escapeHtml(signature).replaceAll("_", "_<wbr />")})</code></p>
<p>${escapeHtml(text)}</p>
${parts.map((part) => (part ? `<${heading}>${part[0]}</${heading}>\n${part[1]}` : "")).join("\n")}`;
}

function parameterHtml({ name, description = "", dimensionality, optional }: Parameter): string {
  const kinds = [dimensionality === "matrix" ? "one cell or a range" : "one cell", ...(optional ? ["optional"] : [])];
  return `<dt><code>${name}</code> <span>${kinds.join(", ")}</span></dt>\n<dd>${escapeHtml(description)}</dd>`;
}

function exampleHtml(id: string, example: Example, copies: boolean): string {
  const button = `\n<button type="button" data-copy aria-label="Copy the example of ${id}">Copy</button>`;
  return `<div class="example"><code>${breakable(formulaText(id, example.arguments))}</code>${copies ? button : ""}</div>
<p class="gives">gives ${escapeHtml(example.gives)}</p>`;
}

/** Lets a long formula break after its separators, and only there if the pane is wide enough. */
function breakable(formula: string): string {
  return formula
    .split(/(?<=[(,;])/)
    .map(escapeHtml)
    .join("<wbr />");
}

/** Splits the source off the end of a description; the page shows it separately. */
export function splitSource(description: string): { readonly text: string; readonly source: string } {
  const whole = description.replace(/\s+/g, " ").trim();
  const start = whole.lastIndexOf("Source: ");
  if (start < 0) return { text: whole, source: "" };
  return { text: whole.slice(0, start).trim(), source: whole.slice(start + "Source: ".length) };
}

/** The one-line summary: the first sentence, cut at a colon outside brackets. */
export function briefOf(text: string): string {
  // A full stop ends a sentence only if a new one follows, so "cl. 6" and "0.65" do not.
  const sentence = /^.*?(?=[.]\s+["A-ZΑ-Ωα-ω]|[.]$|$)/.exec(text)?.[0] ?? text;
  let depth = 0;
  for (const [index, sign] of [...sentence].entries()) {
    if (sign === "(") depth += 1;
    if (sign === ")") depth -= 1;
    if (depth === 0 && sentence.startsWith(": ", index)) return sentence.slice(0, index);
  }
  return sentence;
}

function anchor(name: string): string {
  return name.toLowerCase().replaceAll(" ", "-");
}
