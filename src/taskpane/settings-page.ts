import { unitSystem } from "../functions/cells/units";
import { labels, type Label } from "../functions/settings/labels";
import { labelGroups, type LabelGroup } from "../functions/settings/meanings";
import { escapeHtml } from "../workbook/html";

const units = { SI: unitSystem("SI"), IP: unitSystem("IP") };

/** Unit of a label, and whether 0 is a value, where that applies. */
function remarks({ measures, zeroIsValue }: Label): string {
  const [si, ip] = measures === undefined ? [] : [units.SI[measures], units.IP[measures]];
  const unit = si === ip ? si : `${si} (IP: ${ip})`;
  return [unit, zeroIsValue && "0 is a value"].filter(Boolean).join(", ");
}

function labelHtml(name: string, label: Label, meaning: string): string {
  const words = label.words === undefined ? "" : `: ${label.words.map((word) => `“${word}”`).join(", ")}`;
  return `<dt><code>${name}</code> <span>${escapeHtml(remarks(label))}</span></dt>\n<dd>${escapeHtml(meaning + words)}</dd>`;
}

function groupHtml({ name, meanings }: LabelGroup): string {
  const named = Object.entries(meanings);
  const rows = named.map(([label, meaning]) => labelHtml(label, labels[label as keyof typeof labels], meaning));
  const brief = `${named.length} ${named.length === 1 ? "label" : "labels"}: ${named.map(([label]) => label).join(", ")}`;
  return `<details class="labels">
<summary>${escapeHtml(name)}<span class="brief">${escapeHtml(brief)}</span></summary>
<div class="details"><dl class="arguments">${rows.join("\n")}</dl></div>
</details>`;
}

/** The part of the page that lists the labels of a settings range, as HTML; made once, at build. */
export function settingsPage(): string {
  return `<section class="settings" aria-labelledby="settings">
<h2 id="settings">Settings</h2>
<p>Two columns, label and value, in any order. One block can serve every function. 0 means blank unless it is marked as a value.</p>
${labelGroups.map(groupHtml).join("\n")}
</section>`;
}
