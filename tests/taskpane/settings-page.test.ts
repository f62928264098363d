import { describe, expect, it } from "vitest";
import { labels } from "../../src/functions/settings/labels";
import { labelGroups } from "../../src/functions/settings/meanings";
import { settingsPage } from "../../src/taskpane/settings-page";

const listed = labelGroups.flatMap(({ meanings }) => Object.entries(meanings));

describe("the page's list of settings", () => {
  it("has every label of the functions, each once, with what it means", () => {
    expect(listed.map(([label]) => label).sort()).toEqual(Object.keys(labels).sort());
    for (const [label, meaning] of listed) {
      expect(meaning.length, label).toBeGreaterThan(5);
      expect(meaning, label).not.toBe(label);
    }
  });

  it("says the unit in both systems, the words, and where 0 is a value", () => {
    const html = settingsPage();
    for (const [label] of listed) expect(html).toContain(`<dt><code>${label}</code>`);
    expect(html).toMatch(/<code>volume<\/code> <span>m³ \(IP: ft³\)<\/span>/);
    expect(html).toMatch(/<code>altitude<\/code> <span>m \(IP: ft\), 0 is a value<\/span>/);
    expect(html).toMatch(/<code>indoor humidity<\/code> <span>0 is a value<\/span>/);
    expect(html).toMatch(
      /what kind of flow the column holds: “indicated at calibration density”, “actual at the fan”,/,
    );
    expect(html).toMatch(/id="settings"/);
  });

  it("takes no sign of a meaning for HTML", () => {
    expect(settingsPage()).toContain("in order: &quot;time, pressure, fan pressure, state&quot;");
  });
});
