import { labelGroups } from "../functions/settings/meanings";
import { inEachSystem, type Setting, settingsReference } from "../functions/settings/reference";
import { escapeHtml } from "../workbook/html";

/** A word with its meaning, as the description of a label lists it. */
const wordHtml = ({ word, meaning }: Setting["words"][number]): string =>
  `<li>“${escapeHtml(word)}”${meaning === undefined ? "" : `: ${escapeHtml(meaning)}`}</li>`;

/** How a page leads to a label, and from it to the functions that read it. */
interface References {
  readonly anchorOf: (label: string) => string;
  /** The name of a function as HTML. */
  readonly linkTo: (id: string) => string;
}

function settingHtml(
  { label, means, unit, ifBlank, example, words, zeroIsValue, functions, isRecord }: Setting,
  references?: References,
): string {
  const remarks = zeroIsValue ? `${inEachSystem(unit)}, 0 is a value` : inEachSystem(unit);
  const facts = escapeHtml(`If blank: ${inEachSystem(ifBlank)}. Example: ${inEachSystem(example)}.`);
  const readers = functions.map((id) => references?.linkTo(id) ?? id).join(", ");
  const reading = isRecord ? "For the record: no function reads it." : `Read by ${readers}.`;
  const anchor = references ? ` id="${references.anchorOf(label)}"` : "";
  const list = words.length === 0 ? "" : `<ul>${words.map(wordHtml).join("")}</ul>`;
  return `<div class="setting"${anchor}><dt><code>${label}</code> <span>${escapeHtml(remarks)}</span></dt>
<dd>${escapeHtml(means)}${list}</dd>
<dd class="facts">${facts} ${reading}</dd></div>`;
}

const listSettings = (name: string): Setting[] => settingsReference.filter(({ group }) => group === name);

/** All that is known of the labels of a group, as HTML. */
export function describeSettings(name: string, references?: References): string {
  const settings = listSettings(name).map((setting) => settingHtml(setting, references));
  return `<dl class="arguments">${settings.join("\n")}</dl>`;
}

/** What holds for every range of settings. */
export const settingsRule =
  "Two columns, label and value, in any order. One block can serve every function. 0 means blank unless it is marked as a value.";

function groupHtml(name: string): string {
  const settings = listSettings(name);
  const count = `${settings.length} ${settings.length === 1 ? "label" : "labels"}`;
  const brief = `${count}: ${settings.map(({ label }) => label).join(", ")}`;
  return `<details class="labels">
<summary>${escapeHtml(name)}<span class="brief">${escapeHtml(brief)}</span></summary>
<div class="details">${describeSettings(name)}</div>
</details>`;
}

/** The part of the page that lists the labels of a settings range, as HTML; made once, at build. */
export function settingsPage(): string {
  return `<section class="settings" aria-labelledby="settings">
<h2 id="settings">Settings</h2>
<p>${settingsRule}</p>
${labelGroups.map(({ name }) => groupHtml(name)).join("\n")}
</section>`;
}
