import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { recipes } from "../../sample-workbooks/recipes";
import { boxOf } from "../../sample-workbooks/blocks/address";
import { addInRegistry } from "../../src/cli/shared/add-in";
import {
  buildCellKey,
  type CellValue,
  ErrorValue,
  evaluateBook,
  listJobCells,
  openWorkbook,
} from "../../src/workbook/index";
import { namedCell } from "./look-up";
import { partsOf } from "./parts";
import { sample as sampleOf } from "./sample";
import { condition } from "./typed";
import { slow } from "../time-outs";

const addIn = addInRegistry();
const read = (path: string) => new Uint8Array(readFileSync(new URL(`../../sample-workbooks/${path}`, import.meta.url)));

/** Columns that feed a chart of their own sheet: #N/A is what a chart leaves out. */
const chartColumns: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  "final-test.xlsx": { "Air leakage graph": "K:AJ" },
  "final-test-ip.xlsx": { "Air leakage graph": "K:AJ" },
  "mid-construction.xlsx": { Overview: "N:Q", "Tape and retest": "AH:AN", "Gap and forecast": "J:K" },
};

/** Where a form gives its verdict, by the label in its Summary. */
const verdicts: Readonly<Record<string, string>> = {
  "final-test.xlsx": "Verdict",
  "final-test-ip.xlsx": "Verdict",
  "test-day.xlsx": "A valid test is",
  "logger-import.xlsx": "Result against the limit",
  "mid-construction.xlsx": "Outlook",
  "multi-unit.xlsx": "Verdict",
};

/** Names under which a workbook holds who and what a job is. */
const whoAndWhat = ["House", "Address", "Client", "Tester", "Reviewer", "ReportNumber", "Remark", "Firm"];
const ofTheFirm = ["FirmAddress", "FirmContact", "Instruments"];

describe.each(recipes)("the blank form of $file", { timeout: slow }, ({ file }) => {
  const sample = openWorkbook(read(file));
  const bytes = read(`blank/${file}`);
  const { book } = openWorkbook(bytes);

  it.each([false, true])(
    "shows no error outside the columns of its charts (blank cells as zero: %s)",
    (blankAsZero) => {
      const evaluation = evaluateBook(book, { addIn, blankAsZero });
      const shown = evaluation.cells.flatMap(({ sheet, row, column, address, outcome }) => {
        if (!outcome.evaluated) return [`${address}: ${outcome.reason}`];
        const name = book.sheets[sheet]?.name ?? "";
        const [from, to] = (chartColumns[file]?.[name] ?? "")
          .split(":")
          .map((letters) => boxOf(`${letters || "A"}1`).left);
        const isOfChart = from !== undefined && to !== undefined && to > 0 && column >= from && column <= to;
        const stored = book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.value ?? null;
        const values: readonly CellValue[] = [outcome.value, stored];
        return values.some((value) => value instanceof ErrorValue) && !isOfChart ? [address] : [];
      });
      expect(shown).toEqual([]);
    },
  );

  it("gives no verdict, and does not call its result zero", () => {
    const label = verdicts[file];
    if (label === undefined) return;
    const area = namedCell(book, "Summary");
    const cells = book.sheets[area.sheet]?.cells;
    const at = (row: number, column: number) => cells?.get(buildCellKey(row, column))?.value ?? null;
    const lines = Array.from({ length: area.bottom - area.top + 1 }, (_, index) => area.top + index).map(
      (row) => [at(row, area.left), at(row, area.left + 1), at(row, area.left + 2)] as const,
    );
    expect(lines.find(([words]) => words === label)?.[1]).toBe("open");
    const units = /^(1\/h|m[²³]|ft[²³]|cfm|cm²|m³\/h|m³\/\(h·m²\))$/;
    expect(lines.filter(([, value, unit]) => value === 0 && typeof unit === "string" && units.test(unit))).toEqual([]);
  });

  it("holds nothing of the example: no house, no firm, no reading", () => {
    const job = listJobCells(sample);
    expect(job.length).toBeGreaterThan(10);
    const left = job.filter(({ sheet, row, column }) => {
      const value = book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.value ?? null;
      return value !== null && value !== "";
    });
    expect(left).toEqual([]);
    const names = sample.book.names.map(({ name }) => name);
    const texts = [...whoAndWhat, ...ofTheFirm]
      .filter((name) => names.includes(name))
      .flatMap((name) => {
        const area = namedCell(sample.book, name);
        const isJob = ({ sheet, row, column }: (typeof job)[number]) =>
          sheet === area.sheet && row >= area.top && row <= area.bottom && column >= area.left && column <= area.right;
        return job.filter(isJob).flatMap(({ sheet, row, column }) => {
          const value = sample.book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.value;
          return typeof value === "string" && value.length > 3 ? [value] : [];
        });
      });
    expect(texts.length).toBeGreaterThan(2);
    const escape = (text: string) => text.replaceAll("&", "&amp;").replaceAll("<", "&lt;");
    for (const [part, xml] of partsOf(bytes))
      for (const text of texts) expect(xml.includes(escape(text)) ? text : "", part).toBe("");
  });
});

describe("a form of the final test that is half filled", { timeout: slow }, () => {
  const form = sampleOf("blank/final-test.xlsx");
  const room = { "Rooms!B7": "Hall", "Rooms!C7": "ground", "Rooms!D7": 4, "Rooms!E7": 3 };
  const square = { "Rooms!C38": 0, "Rooms!D38": 0, "Rooms!C39": 4, "Rooms!D39": 0, "Rooms!C40": 4, "Rooms!D40": 3 };
  const notThere = { code: "#N/A" };

  it.each([false, true])("shows what is missing, never a smaller house (blank cells as zero: %s)", (blankAsZero) => {
    const begun = form.typed(room, blankAsZero);
    expect(begun.cell("Rooms!E30")).toMatchObject(notThere);
    expect(begun.cell("Rooms!B26")).toContain("Not added: Hall");
    expect(begun.cell("Rooms!H76")).toMatchObject(notThere);
    expect(begun.cell("Rooms!G62")).toMatchObject(notThere);
    expect(condition(begun, "Rooms half filled")[2]).toBe("not met");
    const measured = form.typed({ ...room, "Rooms!G7": 2.5 }, blankAsZero);
    expect(measured.cell("Rooms!E30")).toBe(30);
    expect(measured.cell("Rooms!H76"), "no outline").toMatchObject(notThere);
    const outlined = form.typed({ ...room, ...square, "Rooms!G7": 2.5 }, blankAsZero);
    expect(outlined.cell("Rooms!H67")).toBe(6);
    expect(outlined.cell("Rooms!H76"), "no height of the walls").toMatchObject(notThere);
    const part = form.typed({ "Rooms!B72": "passage", "Rooms!H72": 12 }, blankAsZero);
    expect(part.cell("Rooms!H76"), "a further part alone").toMatchObject(notThere);
  });

  it("has no factor of density without the certificate's density", () => {
    const read = form.typed({ "Depressurization!D24": -50 });
    for (const place of ["R10", "X17"]) expect(read.cell(`Depressurization!${place}`)).toMatchObject(notThere);
    expect(read.cell("Pressurization!R10")).toBe("");
  });
});
