import { labelGroups } from "../../functions/settings/meanings";
import { settingsReference } from "../../functions/settings/reference";
import { escapeHtml, writePolicyTag } from "../../workbook/html";
import { tokens } from "../../workbook/palette";
import { describeFunction, type Entry, type FilledGroup, groupFunctions, summarizeFunction } from "../reference-page";
import { describeSettings, settingsRule } from "../settings-page";
import shortcutList from "../shortcuts.json";
import { writeSupport } from "./support";

/** What the pages are made of. */
interface Content {
  readonly functions: readonly Entry[];
  readonly version: string;
  readonly style: string;
}

/** Where a page lies, and what it holds. */
interface Page {
  readonly path: string;
  readonly title: string;
  readonly body: string;
}

/**
 * The pages that Excel's help links open in a browser: one for each function, one for all settings, an overview and the support page, by path.
 * They run no script and ask the network for nothing, so that they can be read wherever they are kept.
 */
export function writeHelpPages({ functions, version, style }: Content): Map<string, string> {
  const all = groupFunctions(functions);
  const pages: Page[] = [
    { path: "help/index.html", title: "Help", body: overviewHtml(all) },
    { path: "help/settings.html", title: "Settings", body: settingsHtml(functions) },
    { path: "support.html", title: "Support", body: writeSupport() },
    ...all.flatMap((group) =>
      group.entries.map((entry) => ({
        path: `help/${entry.id}.html`,
        title: entry.id,
        body: functionHtml(entry, group),
      })),
    ),
  ];
  return new Map(pages.map((page) => [page.path, composePage(page, version, `${tokens}\n${style}`)]));
}

/** The pages that every other one leads to. */
const main = [
  ["help/index.html", "All functions"],
  ["help/settings.html", "Settings"],
  ["support.html", "Support"],
] as const;

function composePage({ path, title, body }: Page, version: string, style: string): string {
  const toRoot = path.includes("/") ? "../" : "";
  const links = main.map(([target, name]) => {
    const current = target === path ? ` aria-current="page"` : "";
    return `<li><a href="${toRoot}${target}"${current}>${name}</a></li>`;
  });
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
${writePolicyTag(style)}
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeHtml(title)} · Stillair</title>
<style>${style}</style>
</head>
<body>
<nav aria-label="Help"><ul>${links.join("")}</ul></nav>
<main>
${body}
</main>
<footer>Stillair ${escapeHtml(version)} · MIT licence</footer>
</body>
</html>
`;
}

const linkToFunction = (id: string): string => `<a href="${id}.html">${id}</a>`;

const anchorOf = (label: string): string => label.replaceAll(" ", "-");

function overviewHtml(all: readonly FilledGroup[]): string {
  return `<h1>Stillair: functions for fan pressurization tests</h1>
<p>Type <code>=STILLAIR.</code> in a cell, or choose <i>Functions</i> in the <i>Stillair</i> group on the <i>Home</i> tab. Arguments can be
ranges; results spill. Every function says here what it gives, what it takes, by which equation and source, with an example.</p>
<h2>Shortcuts</h2>
<p>They work in the sheet, not while the pane has the keyboard. Excel asks if another add-in uses the same keys.</p>
<ul>
${shortcutList.actions.map(shortcutHtml).join("\n")}
</ul>
${all.map(groupHtml).join("\n")}`;
}

function shortcutHtml({ id, name }: { readonly id: string; readonly name: string }): string {
  const keys = shortcutList.shortcuts.find(({ action }) => action === id)!.key;
  return `<li>${name}: <kbd>${keys.default}</kbd>, on a Mac <kbd>${keys.mac.replace("Alt", "Option")}</kbd></li>`;
}

function groupHtml({ name, purpose, entries }: FilledGroup): string {
  const items = entries.map(
    (entry) => `<dt><code>${linkToFunction(entry.id)}</code></dt><dd>${escapeHtml(summarizeFunction(entry))}</dd>`,
  );
  return `<h2>${escapeHtml(name)}</h2>
<p>${escapeHtml(purpose)}</p>
<dl>
${items.join("\n")}
</dl>`;
}

function functionHtml(entry: Entry, { name, entries }: FilledGroup): string {
  const labels = settingsReference.filter(({ functions, isRecord }) => !isRecord && functions.includes(entry.id));
  const settings = labels.map(({ label }) => `<a href="settings.html#${anchorOf(label)}">${label}</a>`).join(", ");
  const others = entries.flatMap(({ id }) => (id === entry.id ? [] : linkToFunction(id))).join(", ");
  return `<h1><code>${entry.id}</code></h1>
${describeFunction(entry, { heading: "h2", copies: false })}
${settings === "" ? "" : `<h2>Settings it reads</h2>\n<p>${settings}</p>`}
${others === "" ? "" : `<h2>${escapeHtml(name)}</h2>\n<p>Also in this group: ${others}</p>`}`;
}

function settingsHtml(functions: readonly Entry[]): string {
  const ids = new Set(functions.map(({ id }) => id));
  const references = { anchorOf, linkTo: (id: string) => (ids.has(id) ? linkToFunction(id) : id) };
  const groups = labelGroups.map(({ name }) => `<h2>${escapeHtml(name)}</h2>\n${describeSettings(name, references)}`);
  return `<h1>Settings</h1>
<p>${settingsRule}</p>
${groups.join("\n")}`;
}
