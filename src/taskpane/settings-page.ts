import { labelGroups } from "../functions/settings/meanings";
import { inEachSystem, type Setting, settingsReference } from "../functions/settings/reference";
import { escapeHtml } from "../workbook/html";

/** A word with its meaning, as the description of a label lists it. */
const wordHtml = ({ word, meaning }: Setting["words"][number]): string =>
  `<li>“${escapeHtml(word)}”${meaning === undefined ? "" : `: ${escapeHtml(meaning)}`}</li>`;

function settingHtml({
  label,
  means,
  unit,
  ifBlank,
  example,
  words,
  zeroIsValue,
  functions,
  isRecord,
}: Setting): string {
  const remarks = zeroIsValue ? `${inEachSystem(unit)}, 0 is a value` : inEachSystem(unit);
  const facts = [
    `If blank: ${inEachSystem(ifBlank)}.`,
    `Example: ${inEachSystem(example)}.`,
    isRecord ? "For the record: no function reads it." : `Read by ${functions.join(", ")}.`,
  ];
  const list = words.length === 0 ? "" : `<ul>${words.map(wordHtml).join("")}</ul>`;
  return `<div class="setting"><dt><code>${label}</code> <span>${escapeHtml(remarks)}</span></dt>
<dd>${escapeHtml(means)}${list}</dd>
<dd class="facts">${escapeHtml(facts.join(" "))}</dd></div>`;
}

function groupHtml(name: string): string {
  const settings = settingsReference.filter(({ group }) => group === name);
  const count = `${settings.length} ${settings.length === 1 ? "label" : "labels"}`;
  const brief = `${count}: ${settings.map(({ label }) => label).join(", ")}`;
  return `<details class="labels">
<summary>${escapeHtml(name)}<span class="brief">${escapeHtml(brief)}</span></summary>
<div class="details"><dl class="arguments">${settings.map(settingHtml).join("\n")}</dl></div>
</details>`;
}

/** The part of the page that lists the labels of a settings range, as HTML; made once, at build. */
export function settingsPage(): string {
  return `<section class="settings" aria-labelledby="settings">
<h2 id="settings">Settings</h2>
<p>Two columns, label and value, in any order. One block can serve every function. 0 means blank unless it is marked as a value.</p>
${labelGroups.map(({ name }) => groupHtml(name)).join("\n")}
</section>`;
}
