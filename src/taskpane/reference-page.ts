import { type ExampleArgument, examples } from "../functions/examples";
import { type Group, groups } from "./groups";
import { describeResultSize } from "../functions/result-sizes";
import { escapeHtml } from "../workbook/html";

interface Parameter {
  readonly name: string;
  readonly description?: string;
  readonly dimensionality?: string;
  readonly optional?: boolean;
}

interface Entry {
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

/** Writes the list of functions for the page; functions that belong to no group go under "More functions". */
export function referencePage(metadata: { readonly functions: readonly Entry[] }): ReferencePage {
  const byId = new Map(metadata.functions.map((entry) => [entry.id, entry]));
  const named = new Set(groups.flatMap((group) => group.ids));
  const rest = metadata.functions.map(({ id }) => id).filter((id) => !named.has(id));
  const all = [...groups, { name: "More functions", purpose: "", ids: rest }]
    .map((group) => ({ ...group, entries: group.ids.flatMap((id) => byId.get(id) ?? []) }))
    .filter((group) => group.entries.length > 0);
  return {
    count: metadata.functions.length,
    navigation: all.map(({ name }) => `<li><a href="#${anchor(name)}">${escapeHtml(name)}</a></li>`).join("\n"),
    groups: all.map(groupHtml).join("\n"),
  };
}

function groupHtml({ name, purpose, entries }: Group & { readonly entries: readonly Entry[] }): string {
  return `<section class="group" aria-labelledby="${anchor(name)}">
<h2 id="${anchor(name)}">${escapeHtml(name)}</h2>
<p>${escapeHtml(purpose)}</p>
${entries.map(functionHtml).join("\n")}
</section>`;
}

function functionHtml({ id, description = "", parameters }: Entry): string {
  const { text, source } = splitSource(description);
  // In a narrow or enlarged pane a long name may break after its underscores.
  const signature = parameters.map(({ name, optional }) => (optional ? `[${name}]` : name)).join(", ");
  return `<details class="function" id="${id}">
<summary><code>${id}</code><span class="brief">${escapeHtml(briefOf(text))}</span></summary>
<div class="details">
<p class="signature"><code>STILLAIR.<wbr />${id}(<wbr />${escapeHtml(signature).replaceAll("_", "_<wbr />")})</code></p>
<p>${escapeHtml(text)}</p>
${parameters.length > 0 ? `<h3>Arguments</h3>\n<dl class="arguments">${parameters.map(parameterHtml).join("\n")}</dl>` : ""}
${sizeHtml(id)}
${exampleHtml(id)}
${source ? `<h3>Source</h3>\n<p class="source">${escapeHtml(source)}</p>` : ""}
</div>
</details>`;
}

function parameterHtml({ name, description = "", dimensionality, optional }: Parameter): string {
  const kinds = [dimensionality === "matrix" ? "one cell or a range" : "one cell", ...(optional ? ["optional"] : [])];
  return `<dt><code>${name}</code> <span>${kinds.join(", ")}</span></dt>\n<dd>${escapeHtml(description)}</dd>`;
}

function sizeHtml(id: string): string {
  const size = describeResultSize(id);
  return size === "" ? "" : `<h3>Size of the result</h3>\n<p>${escapeHtml(size)}</p>`;
}

function exampleHtml(id: string): string {
  const example = examples[id];
  if (!example) return "";
  return `<h3>Example</h3>
<div class="example"><code>${breakable(formulaText(id, example.arguments))}</code>
<button type="button" data-copy aria-label="Copy the example of ${id}">Copy</button></div>
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

/** Writes a call as a person types it in an English Excel: ranges as {row;row}, an omitted argument as nothing. */
export function formulaText(id: string, values: readonly ExampleArgument[]): string {
  return `=STILLAIR.${id}(${values.map(argumentText).join(",")})`;
}

function argumentText(value: ExampleArgument): string {
  if (value === null) return "";
  if (typeof value === "object") return `{${value.map((row) => row.map(argumentText).join(",")).join(";")}}`;
  if (typeof value === "string") return `"${value.replaceAll('"', '""')}"`;
  return typeof value === "boolean" ? String(value).toUpperCase() : String(value);
}
