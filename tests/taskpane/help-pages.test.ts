import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import { settingsReference } from "../../src/functions/settings/reference";
import { writeHelpPages } from "../../src/taskpane/help-pages/help-pages";

const entry = (id: string) => ({
  id,
  description: "Gives one <number>: more of it. Source: a book.",
  parameters: [{ name: "first", description: "The only one." }],
});

const style = "p{color:var(--ink)}";
const pages = writeHelpPages({
  functions: ["AIRDENSITY", "AIRVISCOSITY", "UNCERTAINTYBUDGET"].map(entry),
  version: "9.8.7",
  style,
});
const read = (path: string): string => pages.get(path) ?? "";

describe("the pages of help", () => {
  it("are one a function, one for the settings, an overview and the support page", () => {
    expect([...pages.keys()].sort()).toEqual([
      ...["AIRDENSITY", "AIRVISCOSITY", "UNCERTAINTYBUDGET", "index", "settings"].map((name) => `help/${name}.html`),
      "support.html",
    ]);
  });

  it("allow their own style and nothing else, and show the version", () => {
    for (const html of pages.values()) {
      const [, used = ""] = /<style>([\s\S]*?)<\/style>/.exec(html) ?? [];
      expect(used).toContain(style);
      const digest = createHash("sha256").update(used).digest("base64");
      expect(html.replaceAll("&#39;", "'")).toContain(
        `content="default-src 'none'; style-src 'sha256-${digest}'; base-uri 'none'; form-action 'none'"`,
      );
      expect(html).not.toMatch(/<script|<button|<link|<img|\son\w+=|\sstyle=/);
      expect(html).toContain("Stillair 9.8.7");
    }
  });

  it("lead to each other, and nowhere else", () => {
    for (const [path, html] of pages)
      for (const [, target = ""] of html.matchAll(/href="([^"]+)"/g)) {
        const { pathname, hash } = new URL(target, `https://localhost/${path}`);
        const other = read(pathname.slice(1));
        expect([path, target, other !== ""]).toEqual([path, target, true]);
        if (hash !== "") expect(other).toContain(` id="${decodeURIComponent(hash.slice(1))}"`);
      }
  });

  it("say of a function what the pane says, the settings it reads and what stands beside it", () => {
    const html = read("help/AIRDENSITY.html");
    expect(html).toContain("<h1><code>AIRDENSITY</code></h1>");
    expect(html).toContain("Gives one &lt;number&gt;: more of it.");
    expect(html).toContain(`<h2>Source</h2>\n<p class="source">a book.</p>`);
    expect(html).toContain("=STILLAIR.AIRDENSITY(");
    expect(html).toContain(`Also in this group: <a href="AIRVISCOSITY.html">AIRVISCOSITY</a>`);
    expect(html).not.toContain("Settings it reads");
    expect(read("help/UNCERTAINTYBUDGET.html")).toContain(
      `<a href="settings.html#monte-carlo-trials">monte carlo trials</a>`,
    );
  });

  it("list every label once, under an anchor of its own, with the functions that a build has as links", () => {
    const html = read("help/settings.html");
    const labels = [...html.matchAll(/<div class="setting" id="([^"]+)"><dt><code>([^<]+)</g)];
    expect(labels.map(([, , label]) => label)).toEqual(settingsReference.map(({ label }) => label));
    expect(new Set(labels.map(([, id]) => id)).size).toBe(labels.length);
    expect(html).toMatch(/Read by [^<]*<a href="UNCERTAINTYBUDGET.html">UNCERTAINTYBUDGET<\/a>/);
    expect(html).not.toContain("RESULTCARD.html");
    expect(html).toContain("RESULTCARD");
  });

  it("name the keys of every shortcut, and the Option key on a Mac", () => {
    const html = read("help/index.html");
    expect(html).toContain(
      "<li>Trace the selected cell: <kbd>Ctrl+Alt+Shift+T</kbd>, on a Mac <kbd>Command+Option+Shift+T</kbd></li>",
    );
    expect(html.match(/<kbd>/g)).toHaveLength(8);
  });

  it("say where to ask without an address, what a report needs, and what to see to before the fan runs", () => {
    const html = read("support.html");
    expect(html).not.toMatch(/https?:|mailto:|[\w.]@\w/);
    for (const words of ["list of issues", "METHODVERSION", "The version of Excel", "flue gas", "sends nothing"])
      expect(html).toContain(words);
  });
});
