import { policyTag } from "../page/policy";
import { traceStyle } from "./html-style";
import { outlineOf, type Line } from "./outline";
import { inWords } from "./summary";
import { detailsOf, kindText, titleOf, valueText } from "./telling";
import type { Member, Place, Trace } from "./tree";

export interface TracePage {
  /** The workbook's file name. */
  readonly file: string;
}

/** Deeper places are told further down the page, at the margin. */
const deepest = 9;
const openUntil = 2;

const script = `
document.querySelectorAll("button[data-open]").forEach(function(b){b.addEventListener("click",function(){var o=b.dataset.open==="yes";document.querySelectorAll("main details").forEach(function(d){d.open=o})})});
function reveal(){var t=location.hash&&document.getElementById(location.hash.slice(1));for(var e=t;e;e=e.parentElement)if(e.tagName==="DETAILS")e.open=true;if(t)t.scrollIntoView()}
addEventListener("hashchange",reveal);reveal();
`;

/** A trace as a page of its own: nothing is fetched, everything opens and closes, and it reads without scripts too. */
export function traceAsHtml(trace: Trace, { file }: TracePage): string {
  const [first] = trace.places;
  const lines = outlineOf(trace, deepest);
  const title = `Where ${first?.address ?? ""} comes from`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
${policyTag(traceStyle, script)}
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(`${title}, ${file}`)}</title>
<style>${traceStyle}</style>
</head>
<body>
<a class="skip" href="#steps">To the steps</a>
<header>
<h1>${escaped(title)}</h1>
<p>${escaped(file)}</p>
<p class="answer">${first ? `${escaped(titleOf(first))} <strong>${escaped(valueText(first))}</strong>` : ""}</p>
</header>
<main>
<ul class="key"><li><span class="input">ground like this</span> typed in</li><li>[7] a place in full; “see 7” leads back to it</li><li>labels and units are those that stand beside the cells</li></ul>
<p class="tools"><button type="button" data-open="yes">Open all</button><button type="button" data-open="no">Close all</button></p>
<h2 id="steps">Step by step, back to what was typed in</h2>
${treeOf(lines)}
<h2>Typed cells that it rests on: ${trace.inputs.length}</h2>
<ul class="inputs">${trace.inputs.map((address) => `<li class="place">${escaped(address)}</li>`).join("")}</ul>
</main>
<footer><p>Recomputed from the workbook’s own cells. Equations and sources are those of the functions’ own descriptions.</p></footer>
<script>${script}</script>
</body>
</html>
`;
}

interface Branching {
  readonly line: Line;
  readonly below: Branching[];
}

/** The lines as nested lists; a line at the margin again begins a part of its own. */
function treeOf(lines: readonly Line[]): string {
  const roots: Branching[] = [];
  const open: Branching[] = [];
  for (const line of lines) {
    const branching = { line, below: [] };
    open.length = line.depth;
    (open.at(-1)?.below ?? roots).push(branching);
    open.push(branching);
  }
  const [first, ...later] = roots;
  const more =
    later.length > 0 ? `<h2>Steps further back</h2>\n<ul class="tree">${later.map(itemOf).join("")}</ul>` : "";
  return `<ul class="tree">${first ? itemOf(first) : ""}</ul>\n${more}`;
}

function itemOf({ line, below }: Branching): string {
  const { place, number, depth, form } = line;
  if (form !== "full") {
    const words = form === "again" ? `see ${number}` : `further down, ${number}`;
    return `<li class="again">${headOf(line)} <a href="#p${number}">${words}</a></li>\n`;
  }
  const details = definitionsOf(place) + membersOf(place);
  const isInput = place.kind === "input" || (place.kind === "range" && place.branches.length === 0);
  const look = isInput ? ' class="input"' : "";
  const id = `id="p${number}"`;
  if (details === "" && below.length === 0) return `<li ${id}${look}><div class="leaf">${headOf(line)}</div></li>\n`;
  const inner = below.length > 0 ? `<ul>${below.map(itemOf).join("")}</ul>` : "";
  const open = depth < openUntil ? " open" : "";
  return `<li ${id}${look}><details${open}><summary>${headOf(line)}</summary>${details}${inner}</details></li>\n`;
}

function headOf({ place, number, role, form }: Line): string {
  const title = titleOf(place);
  const kind = form === "full" ? kindText(place) : "";
  const wrong = place.notEvaluated === undefined ? "" : " bad";
  return [
    form === "full" ? `<span class="kind">[${number}]</span>` : "",
    role === "" ? "" : `<span class="role">${escaped(role)}</span>`,
    escaped(title),
    `<span class="value${wrong}">${escaped(valueText(place))}</span>`,
    `<span class="place">${escaped(place.address)}</span>`,
    kind === "" ? "" : `<span class="kind">${escaped(kind)}</span>`,
  ]
    .filter((part) => part !== "")
    .join(" ");
}

function definitionsOf(place: Place): string {
  const rows = detailsOf(place).map(([name, text]) => {
    const shown = name === "formula" ? `<code>${escaped(text)}</code>` : escaped(text);
    return `<dt>${escaped(name)}</dt><dd${name === "equation" ? ' class="equation"' : ""}>${shown}</dd>`;
  });
  return rows.length === 0 ? "" : `<dl>${rows.join("")}</dl>`;
}

function membersOf({ members, spread, unit }: Place): string {
  if (!members || members.length === 0) return "";
  const heading = unit === "" ? "value" : `value, ${unit}`;
  const row = ({ address, value, kind }: Member): string =>
    `<tr><th scope="row" class="place">${escaped(address)}</th><td>${escaped(kind === "blank" ? "blank" : inWords(value))}</td></tr>`;
  const table = `<table><thead><tr><th scope="col">cell</th><td>${escaped(heading)}</td></tr></thead><tbody>${members.map(row).join("")}</tbody></table>`;
  return `<details class="cells"><summary>the ${spread?.cells ?? members.length} cells one by one</summary>${table}</details>`;
}

const signs: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;" };
const escaped = (text: string): string => text.replace(/[&<>"']/g, (sign) => signs[sign] ?? sign);
