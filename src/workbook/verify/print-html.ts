import { escapeHtml, writePolicyTag } from "../html";
import { formatList } from "../formatting";
import { tokens } from "../palette";
import { beyondPrograms } from "./assurance";
import { type Cause, type CausedFinding, gatherByCause, joinPlaces } from "./causes";
import { describeAssurance, describeBasis, describeCounts, describeFigure, reviewTotals } from "./print";
import { countOf, type FileReport, judgeOutcome, type Verification } from "./verify";

/** The report as one self-contained web page: a table of the workbooks, then the findings of each. */
export function reviewAsHtml(reports: readonly FileReport[], written: Date): string {
  const title =
    reports.length === 1 ? `Review of ${nameOf(reports[0]?.file ?? "")}` : `Review of ${reports.length} workbooks`;
  return [
    '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8">',
    writePolicyTag(styleSheet),
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escapeHtml(title)}</title><style>${styleSheet}</style></head><body>`,
    `<header><p class="brand">Stillair · reviewer's report</p><h1>${escapeHtml(title)}</h1>`,
    `<p>${reports.length > 1 ? `${escapeHtml(reviewTotals(reports))}. ` : ""}Written ${written.toISOString().slice(0, 10)}.</p></header><main>`,
    reports.length > 1 ? writeTable(reports) : "",
    ...reports.map(writeSection),
    `<div class="signature">${signed.map((part) => `<p>${part}</p>`).join("")}</div>`,
    `<footer><p>${escapeHtml(legend)}</p></footer></main></body></html>\n`,
  ].join("\n");
}

const legend =
  "Error: the workbook contradicts itself or the method. Warning: someone should check. Note: for information. The result remains the tester's responsibility.";

/** The lines that a reviewer fills in by hand on paper. */
const signed = ["Reviewed by", "Date", "Signature"];

const nameOf = (file: string): string => file.split(/[\\/]/).at(-1) ?? file;

function writeTable(reports: readonly FileReport[]): string {
  const names = reports.map(({ file }) => nameOf(file));
  const rows = reports.map((report, index) => {
    const isAlone = names.filter((name) => name === names[index]).length === 1;
    const label = isAlone ? nameOf(report.file) : report.file;
    const link = `<th scope="row"><a href="#w${index}">${escapeHtml(label)}</a></th>`;
    if (report.status === "unreadable") return `<tr class="unread">${link}<td colspan="3">not read</td><td>–</td></tr>`;
    const { verification } = report;
    const counts = ["error", "warning", "note"].map((severity) => {
      const count = countOf(verification, severity);
      return `<td class="count ${count > 0 ? severity : "none"}">${count}</td>`;
    });
    const verdicts = [...new Set(verification.verdicts.map(({ word }) => word))].join(", ");
    return `<tr>${link}${counts.join("")}<td>${escapeHtml(verdicts === "" ? "none" : verdicts)}</td></tr>`;
  });
  const heads = ["workbook", "errors", "warnings", "notes", "verdict"].map((head) => `<th scope="col">${head}</th>`);
  return `<section aria-labelledby="all"><h2 id="all">All workbooks</h2><div class="wide" tabindex="0" role="region" aria-label="Table of workbooks"><table><thead><tr>${heads.join("")}</tr></thead><tbody>${rows.join("")}</tbody></table></div></section>`;
}

function writeSection(report: FileReport, index: number): string {
  const open = `<section class="workbook" aria-labelledby="w${index}"><h2 id="w${index}">${escapeHtml(nameOf(report.file))}</h2>${nameOf(report.file) === report.file ? "" : `<p class="path">${escapeHtml(report.file)}</p>`}`;
  if (report.status === "unreadable")
    return `${open}<p class="problem"><strong>Not read:</strong> ${escapeHtml(report.problem)}.</p></section>`;
  const { verification } = report;
  const causes = gatherByCause(verification.findings);
  const found = causes.filter(({ severity }) => severity !== "note");
  const notes = causes.filter(({ severity }) => severity === "note");
  const state =
    judgeOutcome(report) === "nothing found" ? '<p class="clear"><strong>No errors or warnings.</strong></p>' : "";
  const list = found.length > 0 ? `<ol class="findings">${writeCards(found)}</ol>` : "";
  const rest =
    notes.length > 0
      ? `<details class="notes"><summary>${notes.length === 1 ? "1 note" : `${notes.length} notes`}</summary><ol class="findings">${writeCards(notes)}</ol></details>`
      : "";
  return `${open}<p>${escapeHtml(describeBasis(verification))} ${escapeHtml(describeCounts(verification))}</p>${state}${list}${rest}${writeAssurances(report.verification)}</section>`;
}

function writeAssurances({ checked }: Verification): string {
  if (checked.length === 0) return "";
  const writeItems = (lines: readonly string[]): string => lines.map((line) => `<li>${escapeHtml(line)}</li>`).join("");
  return (
    `<div class="checked"><div><h3>What was checked</h3><ul>${writeItems(checked.map(describeAssurance))}</ul></div>` +
    `<div><h3>What no program can find</h3><ul>${writeItems(beyondPrograms)}</ul></div></div>`
  );
}

const writeCards = (causes: readonly Cause[]): string => causes.map(writeCard).join("");

function writeCard({ first, same, related, severity, decides }: Cause): string {
  const { kind, place, what, why, todo } = first;
  const figure = describeFigure(first);
  const turning = decides ? ' <span class="decides">changes the verdict</span>' : "";
  return (
    `<li class="${severity}"><h3><span class="severity">${severity}</span> ${escapeHtml(kind)}${turning}</h3>` +
    `<p class="place">${escapeHtml(place)}${figure === "" ? "" : ` <span class="figure">${escapeHtml(figure)}</span>`}</p>` +
    `<p>${escapeHtml(what)}</p>${writeOthers("The same in", same)}${writeOthers("Shows also in", related)}` +
    `<dl><dt>Why it matters</dt><dd>${escapeHtml(why)}</dd><dt>What to do</dt><dd>${escapeHtml(todo)}</dd></dl></li>`
  );
}

const mostPlaces = 12;

/** The other places of a cause in a line, which opens to what was found at each. */
function writeOthers(words: string, findings: readonly CausedFinding[]): string {
  if (findings.length === 0) return "";
  const places = formatList(joinPlaces(findings.map(({ place }) => place)), mostPlaces);
  const items = findings.map(
    ({ kind, place, what }) =>
      `<li><strong>${escapeHtml(place)}</strong> ${escapeHtml(kind)}: ${escapeHtml(what)}</li>`,
  );
  return `<details class="others"><summary>${words} ${escapeHtml(places)}</summary><ul>${items.join("")}</ul></details>`;
}

/** The report's style, in the tokens of every page: one column, severities marked by word, bar and colour. */
const styleSheet = `
${tokens}
*{box-sizing:border-box}
body{margin:0;background:var(--ground);color:var(--ink);font:16px/1.45 Arial,Arimo,"Liberation Sans",Helvetica,sans-serif}
header{border-bottom:1px solid var(--rule);padding:1.5rem max(1rem,calc(50vw - 32rem))}
main{padding:.5rem max(1rem,calc(50vw - 32rem)) 3rem}
.brand{margin:0;color:var(--accent);font-weight:bold;font-size:.85rem;letter-spacing:.03em}
h1{margin:.2rem 0 .4rem;color:var(--accent);font-size:1.6rem;font-weight:400;line-height:1.2;overflow-wrap:anywhere}
h2{margin:2.2rem 0 .2rem;color:var(--accent);font-size:1.25rem;overflow-wrap:anywhere}
h3{margin:0;font-size:1rem;font-weight:bold}
p{margin:.3rem 0}
a{color:var(--accent)}
a:focus-visible,summary:focus-visible,.wide:focus-visible{outline:3px solid var(--mark);outline-offset:2px}
.path{color:var(--soft);font-size:.85rem;overflow-wrap:anywhere}
.wide{overflow-x:auto}
table{border-collapse:collapse;width:100%;font-variant-numeric:tabular-nums}
th,td{padding:.35rem .7rem;border-bottom:1px solid var(--rule);text-align:left;vertical-align:baseline}
thead th{border-bottom:2px solid var(--accent);color:var(--accent);font-size:.85rem}
tbody th{font-weight:normal}
td.count{text-align:right}
thead th:nth-child(n+2):nth-child(-n+4){text-align:right}
td.error{color:var(--fail);font-weight:bold}
td.warning{color:var(--mark);font-weight:bold}
td.none{color:var(--soft)}
tr.unread td{color:var(--fail)}
.findings{list-style:none;margin:.8rem 0;padding:0;display:grid;gap:.8rem}
.findings>li{border:1px solid var(--rule);border-left:6px solid var(--soft);padding:.7rem .9rem;overflow-wrap:anywhere}
.findings>li.error{border-left:6px solid var(--fail)}
.findings>li.warning{border-left:6px double var(--mark)}
.findings>li.note{border-left:6px dotted var(--soft)}
.severity{display:inline-block;min-width:5.2rem;color:var(--soft);text-transform:uppercase;font-size:.78rem;letter-spacing:.05em}
.error .severity{color:var(--fail)}
.warning .severity{color:var(--mark)}
.place{color:var(--accent);font-weight:bold}
.figure{color:var(--soft);font-weight:normal;margin-left:.6rem}
.others summary{font-size:.92rem}
.decides{color:var(--fail);font-size:.85rem;font-weight:normal}
.checked{display:grid;grid-template-columns:1fr 1fr;gap:1rem 2rem;margin-top:1rem;font-size:.9rem;color:var(--soft)}
.checked ul{margin:.2rem 0;padding-left:1.2rem}
dl{margin:.4rem 0 0;display:grid;grid-template-columns:8.5rem 1fr;gap:.15rem .8rem;font-size:.92rem}
dt{color:var(--soft)}
dd{margin:0}
.clear{color:var(--pass)}
.problem{color:var(--fail)}
.findings ul{margin:.3rem 0 0;padding-left:1.2rem;font-size:.9rem}
.findings ul li{border:0;padding:.1rem 0}
summary{cursor:pointer;color:var(--accent);margin-top:.6rem}
footer{margin-top:2.5rem;border-top:1px solid var(--rule);color:var(--soft);font-size:.85rem}
@media (max-width:34rem){.checked{grid-template-columns:1fr}dl{grid-template-columns:1fr}dd{margin-bottom:.3rem}h1{font-size:1.4rem}th,td{padding:.3rem .4rem}}
.signature{display:none}
@media print{body{font-size:11pt}header{padding:0 0 .5rem}main{padding:0}h2{margin-top:1rem}.findings>li{break-inside:avoid}.notes::details-content{content-visibility:visible;block-size:auto}.signature{display:grid;grid-template-columns:2fr 1fr 2fr;gap:1.5rem;margin-top:3rem;break-inside:avoid}.signature p{border-top:1px solid var(--ink);font-size:.85rem}}
`;
