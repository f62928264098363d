import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { bake, bakeForm, fill } from "../../sample-workbooks/blocks/book";
import { boxOf } from "../../sample-workbooks/blocks/address";
import { recipes } from "../../sample-workbooks/recipes";
import { addInRegistry } from "../../src/cli/shared/add-in";
import {
  buildCellKey,
  type CellValue,
  compareWithStored,
  evaluateBook,
  openWorkbook,
  writeBack,
  type CellPatch,
  type Evaluation,
} from "../../src/workbook/index";
import { freezeAddInCells } from "./freeze";
import { recomputedByLibreOffice } from "./libre-office";
import "./look-up";
import { attribute, holds, placeOf, printAreaOf } from "./package";
import { cellsOf, partsOf, sheetParts, unlockedStyles } from "./parts";
import { partFaults } from "./part-faults";
import { schemaTool } from "../schema-tools";
import { slow } from "../time-outs";

const addIn = addInRegistry();
const folder = new URL("../../sample-workbooks/", import.meta.url);
const schemaCheck = schemaTool("check-workbook");
/** Every sample workbook, and beside it its blank form. */
const workbooks = recipes.flatMap((recipe) => [
  { file: recipe.file, make: async () => fill(await bake(recipe)) },
  { file: `blank/${recipe.file}`, make: () => bakeForm(recipe) },
]);
const storedBytes = new Map(workbooks.map(({ file }) => [file, new Uint8Array(readFileSync(new URL(file, folder)))]));

const isAddInCall = (text: string | undefined) => text?.includes("_xldudf_") === true;

it("the folder holds the recipes' workbooks and their blank forms, and no other", { timeout: slow }, () => {
  const files = recipes.map(({ file }) => file).sort();
  for (const place of [folder, new URL("blank/", folder)])
    expect(readdirSync(place).filter((name) => name.endsWith(".xlsx"))).toEqual(files);
});

describe.each(workbooks)("the workbook $file", { timeout: slow }, ({ file, make }) => {
  const stored = storedBytes.get(file) as Uint8Array;
  const { book } = openWorkbook(stored);
  const parts = partsOf(stored);
  const sheets = sheetParts(parts);
  const unlocked = unlockedStyles(parts);
  const workbookPart = parts.get("xl/workbook.xml") ?? "";
  const evaluations = new Map<boolean, Evaluation>();
  const evaluated = (blankAsZero: boolean): Evaluation => {
    const known = evaluations.get(blankAsZero) ?? evaluateBook(book, { addIn, blankAsZero });
    evaluations.set(blankAsZero, known);
    return known;
  };

  it("is what its recipe makes, byte for byte, every time", async () => {
    const made = await make();
    expect(Buffer.compare(made, stored), "npm run samples makes another file than the one in the project").toBe(0);
  });

  it.each([false, true])("agrees with every stored value (blank cells as zero: %s)", (blankAsZero) => {
    const evaluation = evaluated(blankAsZero);
    expect(evaluation.cells.filter(({ outcome }) => !outcome.evaluated)).toEqual([]);
    expect(evaluation.cycles).toEqual([]);
    expect(compareWithStored(book, evaluation)).toEqual([]);
    expect(evaluation.cells.length).toBeGreaterThan(20);
  });

  it("calls the add-in, at most three calls deep", () => {
    const { calls, depth } = evaluated(false).addIn;
    expect(calls).toBeGreaterThan(0);
    expect(depth).toBeLessThanOrEqual(3);
  });

  it("asks no program to recompute on opening, which would show #NAME? where the add-in is absent", () => {
    expect(workbookPart).toContain('<calcPr calcId="191029"/>');
    expect(workbookPart).not.toContain("fullCalcOnLoad");
  });

  it("stores every add-in call as a dynamic array formula, scalars too", () => {
    const calls = sheets.flatMap(({ xml }) => cellsOf(xml).filter(({ element }) => element.includes("_xldudf_")));
    for (const { element } of calls) {
      expect(element).toMatch(/^<c [^>]*cm="1"/);
      expect(element).toMatch(/<f t="array" ref="[A-Z]+\d+(:[A-Z]+\d+)?">[^<]*_xldudf_STILLAIR_[A-Z]+\(/);
    }
    expect(parts.get("xl/metadata.xml")).toContain("XLDAPR");
  });

  it("stores every formula with INDEX as a dynamic array formula, so that Excel shows no @INDEX", () => {
    const all = sheets.flatMap(({ name, xml }) => cellsOf(xml).map((cell) => ({ name, ...cell })));
    for (const { name, address, element } of all.filter((cell) => /<f[^>]*>[^<]*\bINDEX\(/.test(cell.element)))
      expect(element, `${name}!${address}`).toMatch(/^<c [^>]*cm="1"[^>]*><f t="array" ref="/);
  });

  it("carries in its charts the values that their cells hold", () => {
    for (const [name, xml] of parts) {
      if (!name.startsWith("xl/charts/chart")) continue;
      for (const [, kind = "", inner = ""] of xml.matchAll(/<c:(num|str)Ref>(.*?)<\/c:\1Ref>/gs)) {
        const [, sheet = "", range = ""] = /<c:f>(?:'?)([^'!]+)'?!([^<]+)<\/c:f>/.exec(inner) ?? [];
        const { top, left, bottom, right } = boxOf(range);
        const cells = book.sheets.find((one) => one.name === sheet)?.cells;
        const width = right - left + 1;
        const held = Array.from({ length: (bottom - top + 1) * width }, (_, index) => {
          const key = buildCellKey(top + Math.floor(index / width), left + (index % width));
          return cells?.get(key)?.value ?? "";
        });
        const points = [...inner.matchAll(/<c:pt idx="(\d+)"><c:v>([^<]*)<\/c:v>/g)].map(
          ([, index, value]) => [Number(index), value] as const,
        );
        const isShown = (value: CellValue) => (kind === "num" ? typeof value === "number" : value !== "");
        expect(points, `${name} ${range}`).toEqual(
          held.flatMap((value, index) =>
            isShown(value)
              ? [[index, typeof value === "string" || typeof value === "number" ? String(value) : ""]]
              : [],
          ),
        );
        expect(inner).toContain(`<c:ptCount val="${held.length}"/>`);
      }
    }
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
      const covered = rules.flatMap((rule) => attribute(rule, "sqref").split(" "));
      for (const { address, style } of cellsOf(xml)) {
        if (!unlocked.has(style)) continue;
        expect(
          covered.some((range) => holds(range, address)),
          `${name}!${address}`,
        ).toBe(true);
      }
    }
  });

  it("keeps print areas by absolute addresses, one page wide, numbered, on every sheet", () => {
    for (const [index, { name, xml }] of sheets.entries()) {
      expect(printAreaOf(workbookPart, index), name).toMatch(/^[^!]+!\$[A-Z]+\$\d+:\$[A-Z]+\$\d+/);
      expect(xml, name).toMatch(/<pageSetup [^>]*fitToWidth="1"/);
      // 1 is Letter, 9 is A4: the paper of those who read feet and inches, and of the others.
      expect(xml, name).toMatch(
        file.includes("-ip.") ? /<pageSetup [^>]*paperSize="1"/ : /<pageSetup [^>]*paperSize="9"/,
      );
      expect(xml, name).toMatch(/<oddFooter>[^<]*Page &amp;P of &amp;N/);
    }
  });

  it("loses nothing where a cell is typed anew and everything is written back", () => {
    const opened = openWorkbook(stored);
    const place = firstTypedNumber();
    const evaluation = evaluateBook(opened.book, { addIn, set: [{ ...place, value: place.value * 1.01 }] });
    const results = evaluation.cells.flatMap(({ sheet, row, column, outcome }): CellPatch[] =>
      outcome.evaluated ? [{ sheet, row, column, value: outcome.value }] : [],
    );
    const written = partsOf(
      writeBack(opened, [{ ...place, sheet: place.index, value: place.value * 1.01 }, ...results]),
    );
    const values = / t="\w+"|<v>[^<]*<\/v>|<v\/>|<is>.*?<\/is>/g;
    for (const [name, text] of parts) {
      if (name.startsWith("xl/worksheets/")) continue;
      if (name === "xl/metadata.xml" || name.startsWith("xl/richData/")) continue;
      const bare = (part = "") => part.replace(/<c:(num|str)Cache>.*?<\/c:\1Cache>/gs, "");
      expect(bare(written.get(name)), name).toBe(bare(text));
    }
    for (const { part, xml } of sheets) {
      const bare = (text: string) =>
        text
          .replace(values, "")
          .replace(/ ?\b(cm|vm)="\d+"/g, "")
          .replaceAll("></c>", "/>");
      expect(bare(written.get(part) ?? ""), part).toBe(bare(xml));
    }
  });

  /** A number that a person types, wherever the first one stands. */
  function firstTypedNumber() {
    for (const [index, { name, xml }] of sheets.entries())
      for (const { element, address, style } of cellsOf(xml)) {
        const value = Number(/<v>([^<]+)<\/v>/.exec(element)?.[1]);
        if (!unlocked.has(style) || element.includes(' t="') || !Number.isFinite(value)) continue;
        return { index, sheet: name, ...placeOf(address), value };
      }
    throw new Error("nothing can be typed into this workbook");
  }

  it("holds the elements of its parts in the order of ECMA-376", () => {
    expect(partFaults(parts)).toEqual([]);
  });

  if (schemaCheck) {
    it("has no fault by the schemas of ECMA-376", () => {
      const path = fileURLToPath(new URL(file, folder));
      expect(execFileSync(schemaCheck, [path], { encoding: "utf8" }).trim()).toBe(`${path}: checked`);
    });
  }
});

describe("the native formulas, recalculated by LibreOffice with add-in cells frozen", { timeout: slow }, () => {
  /** LibreOffice writes every file into one folder. */
  const flat = (file: string) => file.replace("/", "-");
  let recomputed: Map<string, Uint8Array>;
  beforeAll(() => {
    recomputed = recomputedByLibreOffice(
      new Map(
        [...storedBytes].map(([file, bytes]) => [
          flat(file),
          freezeAddInCells(bytes, { emptyTexts: file.startsWith("blank/") }),
        ]),
      ),
    );
  }, slow);

  it.each(workbooks)("give the stored values of $file", ({ file }) => {
    const { book } = openWorkbook(storedBytes.get(file) as Uint8Array);
    const theirs = openWorkbook(recomputed.get(flat(file)) as Uint8Array).book;
    let compared = 0;
    for (const [index, sheet] of book.sheets.entries()) {
      for (const [key, { value, formula }] of sheet.cells) {
        if (!formula || isAddInCall(formula.text)) continue;
        const their = theirs.sheets[index]?.cells.get(key)?.value ?? null;
        compared += 1;
        if (typeof value === "number") expect(their, `${sheet.name} ${key}`).toBeCloseToRelative(value);
        else expect(their ?? "", `${sheet.name} ${key}: ${formula.text}`).toEqual(value ?? "");
      }
    }
    expect(compared).toBeGreaterThan(10);
  });
});
