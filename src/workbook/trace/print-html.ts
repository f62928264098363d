import { escapeHtml, writePolicyTag } from "../html";
import { palette, typeface } from "../palette";
import { listDetails, describeKind, type Line, outlineOf, composeTitle, formatValue } from "./outline";
import { describeValue, type Member, type TracedPlace, type Trace } from "./tree";

interface TracePage {
  /** The workbook's file name. */
  readonly file: string;
}

/** Deeper places are described further down the page, at the margin. */
const deepest = 9;
const openUntil = 2;

const script = `
document.querySelectorAll("button[data-open]").forEach(function(b){b.addEventListener("click",function(){var o=b.dataset.open==="yes";document.querySelectorAll("main details").forEach(function(d){d.open=o})})});
function reveal(){var t=location.hash&&document.getElementById(location.hash.slice(1));for(var e=t;e;e=e.parentElement)if(e.tagName==="DETAILS")e.open=true;if(t)t.scrollIntoView()}
addEventListener("hashchange",reveal);reveal();
`;

/** A trace as a self-contained page: everything opens and closes, and it can be read without scripts. */
export function traceAsHtml(trace: Trace, { file }: TracePage): string {
  const [first] = trace.places;
  const lines = outlineOf(trace, deepest);
  const title = `Where ${first?.address ?? ""} comes from`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
${writePolicyTag(traceStyle, script)}
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeHtml(`${title}, ${file}`)}</title>
<style>${traceStyle}</style>
</head>
<body>
<a class="skip" href="#steps">To the steps</a>
<header>
<h1>${escapeHtml(title)}</h1>
<p>${escapeHtml(file)}</p>
<p class="answer">${first ? `${escapeHtml(composeTitle(first))} <strong>${escapeHtml(formatValue(first))}</strong>` : ""}</p>
</header>
<main>
<ul class="key"><li><span class="input">shaded like this</span> typed in</li><li>[7] a place in full; “see 7” refers back to it</li><li>labels and units are those next to the cells</li></ul>
<p class="tools"><button type="button" data-open="yes">Open all</button><button type="button" data-open="no">Close all</button></p>
<h2 id="steps">Step by step, back to what was typed in</h2>
${writeTree(lines)}
<h2>Typed cells it depends on: ${trace.inputs.length}</h2>
<ul class="inputs">${trace.inputs.map((address) => `<li class="place">${escapeHtml(address)}</li>`).join("")}</ul>
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

/** The lines as nested lists; another line at the margin starts a separate part. */
function writeTree(lines: readonly Line[]): string {
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
    later.length > 0 ? `<h2>Steps further back</h2>\n<ul class="tree">${later.map(writeItem).join("")}</ul>` : "";
  return `<ul class="tree">${first ? writeItem(first) : ""}</ul>\n${more}`;
}

function writeItem({ line, below }: Branching): string {
  const { place, number, depth, form } = line;
  if (form !== "full") {
    const words = form === "again" ? `see ${number}` : `further down, ${number}`;
    return `<li class="again">${writeHead(line)} <a href="#p${number}">${words}</a></li>\n`;
  }
  const details = writeDefinitions(place) + writeMembers(place);
  const isInput = place.kind === "input" || (place.kind === "range" && place.branches.length === 0);
  const look = isInput ? ' class="input"' : "";
  const id = `id="p${number}"`;
  if (details === "" && below.length === 0) return `<li ${id}${look}><div class="leaf">${writeHead(line)}</div></li>\n`;
  const inner = below.length > 0 ? `<ul>${below.map(writeItem).join("")}</ul>` : "";
  const open = depth < openUntil ? " open" : "";
  return `<li ${id}${look}><details${open}><summary>${writeHead(line)}</summary>${details}${inner}</details></li>\n`;
}

function writeHead({ place, number, role, form }: Line): string {
  const title = composeTitle(place);
  const kind = form === "full" ? describeKind(place) : "";
  const wrong = place.notEvaluated === undefined ? "" : " bad";
  return [
    form === "full" ? `<span class="kind">[${number}]</span>` : "",
    role === "" ? "" : `<span class="role">${escapeHtml(role)}</span>`,
    escapeHtml(title),
    `<span class="value${wrong}">${escapeHtml(formatValue(place))}</span>`,
    `<span class="place">${escapeHtml(place.address)}</span>`,
    kind === "" ? "" : `<span class="kind">${escapeHtml(kind)}</span>`,
  ]
    .filter((part) => part !== "")
    .join(" ");
}

function writeDefinitions(place: TracedPlace): string {
  const rows = listDetails(place).map(([name, text]) => {
    const shown = name === "formula" ? `<code>${escapeHtml(text)}</code>` : escapeHtml(text);
    return `<dt>${escapeHtml(name)}</dt><dd${name === "equation" ? ' class="equation"' : ""}>${shown}</dd>`;
  });
  return rows.length === 0 ? "" : `<dl>${rows.join("")}</dl>`;
}

function writeMembers({ members, spread, unit }: TracedPlace): string {
  if (!members || members.length === 0) return "";
  const heading = unit === "" ? "value" : `value, ${unit}`;
  const writeRow = ({ address, value, kind }: Member): string =>
    `<tr><th scope="row" class="place">${escapeHtml(address)}</th><td>${escapeHtml(kind === "blank" ? "blank" : describeValue(value))}</td></tr>`;
  const table = `<table><thead><tr><th scope="col">cell</th><td>${escapeHtml(heading)}</td></tr></thead><tbody>${members.map(writeRow).join("")}</tbody></table>`;
  return `<details class="cells"><summary>all ${spread?.cells ?? members.length} cells</summary>${table}</details>`;
}

const ink = `#${palette.ink}`;

/** The style of a trace's page: the colours of the sample workbooks, with narrow screens and print included. */
const traceStyle = `
*{box-sizing:border-box}
body{margin:0;background:#${palette.white};color:${ink};font:16px/1.45 ${typeface},"Helvetica Neue",Helvetica,sans-serif}
a{color:#${palette.petrol}}
.skip{position:absolute;left:-999px}
.skip:focus{left:8px;top:8px;background:#${palette.white};padding:4px 8px}
header,main,footer{max-width:76rem;margin:0 auto;padding:0 1.25rem}
header{border-top:6px solid #${palette.petrol};padding-top:1.25rem}
h1{font-size:1.5rem;line-height:1.2;margin:0;color:#${palette.petrol}}
h2{font-size:1.1rem;margin:2rem 0 .5rem;padding-bottom:.3rem;border-bottom:1px solid #${palette.rule};color:#${palette.petrol}}
header p{margin:.3rem 0;color:#${palette.grey}}
header .answer{color:${ink};margin:1rem 0;padding:.7rem 1rem;background:#${palette.petrolPale};border-left:5px solid #${palette.petrol};font-size:1.15rem}
.answer strong{font-size:1.35rem}
.key{display:flex;flex-wrap:wrap;gap:.3rem 1.25rem;margin:.75rem 0;padding:0;list-style:none;font-size:.875rem}
.key span{display:inline-block;padding:0 .4rem;border:1px solid #${palette.rule}}
.tools{margin:.5rem 0}
button{font:inherit;font-size:.875rem;color:#${palette.petrol};background:#${palette.white};border:1px solid #${palette.petrolMid};padding:.25rem .7rem;margin-right:.4rem;cursor:pointer}
button:hover,button:focus-visible{background:#${palette.petrolPale}}
ul.tree,ul.tree ul{list-style:none;margin:0;padding:0}
ul.tree ul{margin-left:.6rem;padding-left:.9rem;border-left:1px solid #${palette.rule}}
li{margin:.3rem 0}
summary{cursor:pointer;padding:.15rem .3rem}
summary:hover{background:#${palette.petrolPale}}
summary:focus-visible,a:focus-visible,button:focus-visible{outline:2px solid #${palette.copper};outline-offset:1px}
.leaf,.again{padding:.15rem .3rem .15rem 1.3rem}
.input{background:#${palette.input};border-left:3px solid #${palette.copper}}
.role{color:#${palette.grey}}
.role::after{content:" · "}
.value{font-weight:bold;white-space:pre-wrap}
.place{font-family:ui-monospace,Menlo,Consolas,monospace;font-size:.85em;color:#${palette.grey};overflow-wrap:anywhere}
.kind{font-size:.8rem;color:#${palette.grey}}
.bad{color:#${palette.fail}}
dl{margin:.2rem 0 .4rem 1.3rem;display:grid;grid-template-columns:7.5rem minmax(0,1fr);gap:.1rem .75rem;font-size:.9rem}
dt{color:#${palette.grey}}
dd{margin:0;overflow-wrap:anywhere}
dd.equation{font-style:italic}
dd code{font-family:ui-monospace,Menlo,Consolas,monospace;font-size:.92em}
.cells{margin:.2rem 0 .4rem 1.3rem;font-size:.875rem}
.cells table{border-collapse:collapse;margin-top:.3rem}
.cells th,.cells td{padding:.1rem .8rem .1rem 0;text-align:left;font-weight:normal;border-bottom:1px solid #${palette.hair}}
.cells td{text-align:right;font-variant-numeric:tabular-nums}
.inputs{columns:14rem;column-gap:1.5rem;padding:0;list-style:none;font-size:.875rem}
.inputs li{margin:0;break-inside:avoid}
footer{margin-top:2rem;padding-bottom:2rem;font-size:.875rem;color:#${palette.grey}}
@media (max-width:40rem){
header,main,footer{padding-left:.8rem;padding-right:.8rem}
ul.tree ul{margin-left:.15rem;padding-left:.45rem}
dl{grid-template-columns:minmax(0,1fr);margin-left:.5rem;gap:0}
dd{margin-bottom:.25rem}
.leaf,.again{padding-left:.4rem}
.cells{margin-left:.5rem}
}
@media print{.tools,.skip{display:none}body{font-size:10pt}li{break-inside:avoid-page}}
`;
