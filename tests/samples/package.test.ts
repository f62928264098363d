import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { cellsOf, partsOf, sheetParts, unlockedStyles } from "./parts";
import { madeAnew, stored } from "./workbook";

const parts = partsOf(stored);
const sheets = sheetParts(parts);
const unlocked = unlockedStyles(parts);
const workbookPart = parts.get("xl/workbook.xml") ?? "";

describe("the sample workbook as a package", () => {
  it("is what its recipe makes, byte for byte, every time", async () => {
    const [once, twice] = [await madeAnew(), await madeAnew()];
    expect(Buffer.compare(once, twice)).toBe(0);
    expect(Buffer.compare(once, stored), "npm run samples makes another file than the one in the project").toBe(0);
  });

  it("asks no program to recompute on opening, which would show #NAME? where the add-in is absent", () => {
    expect(workbookPart).toContain('<calcPr calcId="191029"/>');
    expect(workbookPart).not.toContain("fullCalcOnLoad");
  });

  it("stores every add-in call as a dynamic array formula, scalars too", () => {
    const calls = sheets.flatMap(({ xml }) => cellsOf(xml).filter(({ element }) => element.includes("_xldudf_")));
    expect(calls.length).toBeGreaterThan(20);
    for (const { element } of calls) {
      expect(element).toMatch(/^<c [^>]*cm="1"/);
      expect(element).toMatch(
        /<f t="array" ref="[A-Z]+\d+(:[A-Z]+\d+)?">(IF\(COUNTA\([A-Z0-9:]+\)=0,(""|&quot;&quot;),)?_xldudf_STILLAIR_[A-Z]+\(/,
      );
    }
    expect(parts.get("xl/metadata.xml")).toContain("XLDAPR");
  });

  it("protects every sheet without a password; whoever types finds the cells unlocked, and no formula among them", () => {
    for (const { name, xml } of sheets) {
      expect(xml, name).toMatch(/<sheetProtection [^>]*sheet="1"/);
      expect(xml, name).not.toMatch(/<sheetProtection [^>]*(password|hashValue)=/);
      for (const { address, style, element } of cellsOf(xml)) {
        if (element.includes("<f")) expect(unlocked.has(style), `${name}!${address} holds a formula`).toBe(false);
      }
    }
  });

  it("has a validation with a message on every cell that can be typed into", () => {
    for (const { name, xml } of sheets) {
      const rules = [...xml.matchAll(/<dataValidation ([^>]*)>/g)].map(([, attributes = ""]) => attributes);
      for (const rule of rules) {
        expect(rule).toMatch(/showInputMessage="1".*showErrorMessage="1"/);
        expect(attribute(rule, "promptTitle").length).toBeLessThanOrEqual(32);
        expect(attribute(rule, "errorTitle").length).toBeLessThanOrEqual(32);
        expect(attribute(rule, "prompt").length, attribute(rule, "prompt")).toBeLessThanOrEqual(255);
        expect(attribute(rule, "error").length).toBeLessThanOrEqual(225);
      }
      const covered = rules.map((rule) => attribute(rule, "sqref"));
      for (const { address, style } of cellsOf(xml)) {
        if (!unlocked.has(style)) continue;
        expect(
          covered.some((range) => holds(range, address)),
          `${name}!${address}`,
        ).toBe(true);
      }
    }
  });

  it("keeps print areas and titles by absolute addresses, one page wide, on every sheet", () => {
    for (const [index, { name, xml }] of sheets.entries()) {
      const area =
        new RegExp(`<definedName name="_xlnm.Print_Area" localSheetId="${index}">([^<]*)<`).exec(workbookPart)?.[1] ??
        "";
      expect(area, name).toMatch(/^[^!]+!\$[A-Z]+\$\d+:\$[A-Z]+\$\d+/);
      expect(xml, name).toMatch(/<pageSetup [^>]*fitToWidth="1"/);
      expect(xml, name).toMatch(/<oddFooter>[^<]*Page &amp;P of &amp;N/);
    }
  });

  it("draws the graph on log–log axes, on its own sheet and on the cover, points without a line between them", () => {
    const charts = [...parts].filter(([name]) => /^xl\/charts\/chart\d+\.xml$/.test(name)).map(([, xml]) => xml);
    expect(charts).toHaveLength(2);
    for (const xml of charts) {
      expect(xml.match(/<c:logBase val="10"\/>/g)).toHaveLength(2);
      const named = (title: string) => xml.split("<c:ser>").find((one) => one.includes(`<c:v>${title}</c:v>`)) ?? "";
      for (const direction of ["Depressurization", "Pressurization"]) {
        expect(named(direction)).toContain("<a:ln><a:noFill/></a:ln>");
        expect(named("fitted line")).not.toContain("<a:noFill/>");
        expect(named("fitted line")).toContain("'Air leakage graph'!");
      }
      expect(named("at 50 Pa")).toContain("prstDash");
    }
  });
});

function attribute(element: string, name: string): string {
  return new RegExp(`\\b${name}="([^"]*)"`).exec(element)?.[1] ?? "";
}

function holds(range: string, address: string): boolean {
  const [from = "", to = from] = range.split(":");
  const [a, b, c] = [from, to, address].map(placeOf) as [Place, Place, Place];
  return a.row <= c.row && c.row <= b.row && a.column <= c.column && c.column <= b.column;
}

interface Place {
  readonly row: number;
  readonly column: number;
}

function placeOf(address: string): Place {
  const [, letters = "", digits = ""] = /^([A-Z]+)(\d+)$/.exec(address) ?? [];
  return { row: Number(digits), column: [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) };
}

const schemaCheck = fileURLToPath(new URL("../../../shared/tools/check-workbook", import.meta.url));

describe("the sample workbook against the schemas of ECMA-376", () => {
  it.skipIf(!existsSync(schemaCheck))(
    "has no fault in any part (skipped only where ../shared/tools/check-workbook is absent)",
    () => {
      const file = fileURLToPath(new URL("../../sample-workbooks/final-test.xlsx", import.meta.url));
      expect(execFileSync(schemaCheck, [file], { encoding: "utf8" }).trim()).toBe(`${file}: checked`);
    },
  );
});
