import { describe, expect, it } from "vitest";
import { settingsReference } from "../../src/functions/settings/reference";
import { settingsPage } from "../../src/taskpane/settings-page";

describe("the page's list of settings", () => {
  it("has every label, each once", () => {
    const labels = [...settingsPage().matchAll(/<dt><code>([^<]+)<\/code>/g)].map(([, label]) => label);
    expect(labels).toEqual(settingsReference.map(({ label }) => label));
  });

  it("says the unit in every system, what counts if blank, an example, and where 0 is a value", () => {
    const html = settingsPage();
    expect(html).toMatch(/<code>volume<\/code> <span>m³ \(IP: ft³\)<\/span>/);
    expect(html).toMatch(/<code>supply flow<\/code> <span>m³\/h \(SI L\/s: L\/s; IP: cfm\)<\/span>/);
    expect(html).toMatch(/<code>altitude<\/code> <span>m \(IP: ft\), 0 is a value<\/span>/);
    expect(html).toMatch(/<code>indoor humidity<\/code> <span>fraction, 0 is a value<\/span>/);
    expect(html).toContain("If blank: 0.01. Example: 0.01. Read by UNCERTAINTYBUDGET.");
    expect(html).toContain("Example: whole internal. For the record: no function reads it.");
    expect(html).toMatch(/id="settings"/);
  });

  it("explains the words", () => {
    expect(settingsPage()).toMatch(
      /what kind of flow the column holds<ul><li>“indicated at calibration density”: as the device shows it, /,
    );
  });

  it("takes no sign of a meaning for HTML", () => {
    expect(settingsPage()).toContain("number or &quot;none&quot;");
  });
});
