import { execFileSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { addInRegistry } from "../../../src/cli/shared/add-in";
import { methodVersion } from "../../../src/core/index";
import {
  buildCellKey,
  compareWithStored,
  ErrorValue,
  evaluateBook,
  computeFingerprint,
  openWorkbook,
  readIssueMark,
  withFrozenFormulas,
} from "../../../src/workbook/index";
import { recomputedByLibreOffice } from "../../samples/libre-office";
import { partFaults } from "../../samples/part-faults";
import { partsOf } from "../../samples/parts";
import { schemaTool } from "../../schema-tools";
import { issued } from "./issued";
import { slow } from "../../time-outs";

const folder = new URL("../../../sample-workbooks/", import.meta.url);
const files = readdirSync(folder).filter((name) => name.endsWith(".xlsx"));
const bytesOf = (file: string) => new Uint8Array(readFileSync(new URL(file, folder)));
const copies = new Map(files.map((file) => [file, issued(bytesOf(file))]));
const schemaCheck = schemaTool("check-workbook");
const isAddIn = (text: string | undefined) => text?.includes("_xldudf_") === true;

describe.each(files)("the issue copy of %s", { timeout: slow }, (file) => {
  const original = openWorkbook(bytesOf(file));
  const { bytes, opened, mark, sheetName } = copies.get(file)!;
  const { book } = opened;

  it("holds a value where the add-in was called, the same as before, and every other formula as it was", () => {
    let [frozen, live] = [0, 0];
    for (const [index, { cells }] of original.book.sheets.entries())
      for (const [key, { value, formula, format }] of cells) {
        const copy = book.sheets[index]?.cells.get(key);
        if (value instanceof ErrorValue) expect(copy?.value).toMatchObject({ code: value.code });
        else expect(copy?.value ?? "").toEqual(value ?? "");
        expect(copy?.format ?? "General").toBe(format);
        if (!formula) continue;
        if (isAddIn(formula.text)) frozen += 1;
        if (copy?.formula) live += 1;
        expect(copy?.formula).toEqual(isAddIn(formula.text) ? undefined : formula);
      }
    expect(frozen).toBeGreaterThan(0);
    expect(mark.formulas).toHaveLength(frozen);
    expect(live).toBeGreaterThan(0);
  });

  it("needs no add-in: everything evaluates without it, to the stored values", () => {
    const evaluation = evaluateBook(book, { now: new Date() });
    expect(evaluation.cells.filter(({ outcome }) => !outcome.evaluated)).toEqual([]);
    expect(compareWithStored(book, evaluation)).toEqual([]);
  });

  it("loses nothing: all parts but those that a new sheet and the frozen cells touch are byte for byte the same", () => {
    const [before, after] = [partsOf(bytesOf(file)), partsOf(bytes)];
    const touched =
      /^(\[Content_Types\]\.xml|xl\/workbook\.xml|xl\/_rels\/workbook\.xml\.rels|xl\/styles\.xml|xl\/worksheets\/sheet\d+\.xml)$/;
    for (const [name, text] of before) {
      expect(after.has(name), name).toBe(true);
      if (!touched.test(name)) expect(after.get(name), name).toBe(text);
      if (!name.startsWith("xl/worksheets/sheet")) continue;
      // A sheet without its formulas, values and their marks: styles, heights, rules, print set-up.
      const bare = (xml = "") =>
        xml
          .replace(
            /<f[ >][^]*?<\/f>|<f\/>|<v>[^<]*<\/v>|<v\/>|<is>[^]*?<\/is>| (t|cm|vm|hidden|tabSelected)="\w+"/g,
            "",
          )
          .replace(/><\/c>/g, "/>");
      expect(bare(after.get(name)), name).toBe(bare(text));
    }
    const added = [...after.keys()].filter((name) => !before.has(name));
    expect(added).toHaveLength(1);
    const styles = (parts: Map<string, string>) => parts.get("xl/styles.xml")?.match(/<xf .*?(\/>|<\/xf>)/g) ?? [];
    expect(styles(after).slice(0, styles(before).length - 1)).toEqual(styles(before).slice(0, -1));
  });

  it("lists the formulas as they are typed; put back, the workbook is the one that was issued", () => {
    for (const { formula } of mark.formulas) expect(formula).toMatch(/^=.*STILLAIR\.[A-Z]+\(/s);
    const again = withFrozenFormulas(book);
    for (const [index, { cells }] of original.book.sheets.entries())
      for (const [key, { formula }] of cells) {
        const text = formula?.text.replaceAll(/_xlfn\.|_xlws\.|_xlpm\./g, "");
        const copy = again.sheets[index]?.cells.get(key)?.formula;
        if (isAddIn(text)) expect(copy).toEqual({ ...formula, text });
      }
    const evaluation = evaluateBook(again, { addIn: addInRegistry(), now: new Date() });
    expect(compareWithStored(again, evaluation)).toEqual([]);
  });

  it("keeps its fingerprint when a program saves it that rounds to 15 digits in its own way and writes TRUE() for TRUE", () => {
    const sheets = book.sheets.map((sheet) => ({
      ...sheet,
      cells: new Map(
        [...sheet.cells].map(([key, cell]) => {
          const { value, formula } = cell;
          const isLong = typeof value === "number" && String(value).replace(/e.*|\D/g, "").length > 15;
          const text = formula?.text.replace(/\b(TRUE|FALSE)\b(?!\()/g, "$1()");
          return [
            key,
            {
              ...cell,
              value: isLong ? (formula ? value * (1 + 2e-15) : Number(value.toPrecision(15))) : value,
              ...(formula && text !== undefined && { formula: { ...formula, text } }),
            },
          ];
        }),
      ),
    }));
    expect(computeFingerprint({ ...book, sheets })).toBe(mark.fingerprint);
  });

  it("knows itself by its fingerprint, which the original has not", () => {
    expect(computeFingerprint(book)).toBe(mark.fingerprint);
    expect(mark).toMatchObject({ issued: "2026-11-05", methodVersion });
    expect(mark.fingerprint).toMatch(/^[0-9a-f]{64}$/);
    expect(readIssueMark(original.book)).toBeUndefined();
    expect(computeFingerprint(original.book)).toBe("");
  });

  it("holds the elements of its parts in the order of ECMA-376", () => {
    expect(partFaults(partsOf(bytes))).toEqual([]);
  });

  if (schemaCheck) {
    it("has no fault by the schemas of ECMA-376", () => {
      const place = mkdtempSync(join(tmpdir(), "issued-"));
      const path = join(place, file);
      writeFileSync(path, bytes);
      const said = execFileSync(schemaCheck, [path], { encoding: "utf8" }).trim();
      rmSync(place, { recursive: true });
      expect(said).toBe(`${path}: checked`);
    });
  }

  it("prints its list one page wide, with its heading on every page", () => {
    const name = sheetName.includes(" ") ? `'${sheetName}'` : sheetName;
    const texts = [...(book.sheets.at(-1)?.cells.values() ?? [])].filter(({ value }) => value !== null);
    const last = 1 + Math.max(...texts.map(({ row }) => row));
    const index = book.sheets.findIndex((sheet) => sheet.name === sheetName);
    expect(index).toBe(book.sheets.length - 1);
    // With working papers hidden, the list is one of them; its head with the fingerprint prints.
    const isPartial = book.names.some((one) => one.name === "WorkingPapers");
    const own = book.names.filter(({ sheet }) => sheet === index);
    expect(own).toEqual([
      { name: "_xlnm.Print_Area", sheet: index, text: `${name}!$B$1:$H$${isPartial ? 10 : last}` },
      { name: "_xlnm.Print_Titles", sheet: index, text: `${name}!$11:$11` },
    ]);
  });
});

it(
  "LibreOffice shows no #NAME? in the copies, and gives the same values after it recomputed them, with the same fingerprint",
  { timeout: slow },
  () => {
    const given = new Map([...copies].map(([file, { bytes }]) => [file, bytes]));
    for (const [file, bytes] of recomputedByLibreOffice(given)) {
      const { opened, mark } = copies.get(file)!;
      const { book } = opened;
      const theirs = openWorkbook(bytes).book;
      expect(readIssueMark(theirs)?.formulas, file).toEqual(mark.formulas);
      expect(computeFingerprint(theirs), file).toBe(mark.fingerprint);
      for (const [index, { cells, name }] of book.sheets.entries())
        for (const { row, column, value, formula } of cells.values()) {
          const their = theirs.sheets[index]?.cells.get(buildCellKey(row, column))?.value ?? null;
          if (their instanceof ErrorValue) expect(their.code, `${file} ${name} ${row} ${column}`).not.toBe("#NAME?");
          if (typeof value === "number" && typeof their === "number")
            expect(Math.abs(their - value), `${file} ${name} ${formula?.text ?? ""}`).toBeLessThanOrEqual(
              1e-9 * Math.max(1, Math.abs(value)),
            );
          else if (value instanceof ErrorValue) expect(their).toMatchObject({ code: value.code });
          else expect(their ?? "", `${file} ${name} ${formula?.text ?? ""}`).toEqual(value ?? "");
        }
    }
  },
);
