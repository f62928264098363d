import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { recipes } from "../../sample-workbooks/recipes";
import { addInRegistry } from "../../src/cli/shared/add-in";
import { methodVersion } from "../../src/core/index";
import { issueCopy, openWorkbook } from "../../src/workbook/index";
import { slow } from "../time-outs";
import { freezeAddInCells } from "./freeze";
import { printedByLibreOffice } from "./libre-office";
import { findCutTexts, findOverprints, isRaised, type PrintedText, readPrintedPages } from "./printed-pages";

/** Pages at most: the form as delivered, blank or filled, and the client's copy of the sample. A page more is to be seen and wanted. */
const most: Readonly<Record<string, readonly [form: number, copy: number]>> = {
  "final-test.xlsx": [38, 8],
  "final-test-ip.xlsx": [38, 8],
  "envelope-what-if.xlsx": [16, 8],
  "test-day.xlsx": [13, 15],
  "logger-import.xlsx": [12, 6],
  "mid-construction.xlsx": [25, 17],
  "multi-unit.xlsx": [12, 8],
  "programme-review.xlsx": [18, 18],
};

/** Points. What LibreOffice writes is a little off the size that was meant. */
const least = 7.9;

/** Lines of text, letterhead and footer among them: a page with fewer is not worth its paper. */
const fewestLines = 6;

const folder = new URL("../../sample-workbooks/", import.meta.url);
const bytesOf = (file: string) => new Uint8Array(readFileSync(new URL(file, folder)));

function clientCopy(file: string, whole: boolean): Uint8Array {
  const options = {
    addIn: addInRegistry(),
    methodVersion,
    issued: "2026-11-05",
    now: new Date(),
    keepOldValues: false,
  };
  const copy = issueCopy(openWorkbook(bytesOf(file)), { ...options, whole });
  if ("reason" in copy) throw new Error(copy.reason);
  return copy.bytes;
}

describe("on paper", { timeout: slow }, () => {
  let printed: Map<string, PrintedText[][]>;
  beforeAll(() => {
    const workbooks = recipes.flatMap(({ file }): [string, Uint8Array][] => [
      [file, freezeAddInCells(bytesOf(file))],
      [`blank-${file}`, freezeAddInCells(bytesOf(`blank/${file}`), { emptyTexts: true })],
      [`copy-${file}`, clientCopy(file, false)],
    ]);
    workbooks.push(["whole-final-test.xlsx", clientCopy("final-test.xlsx", true)]);
    const pages = printedByLibreOffice(new Map(workbooks));
    printed = new Map([...pages].map(([file, pdf]) => [file, readPrintedPages(pdf)]));
    for (const [file, { length }] of printed) process.stdout.write(`${file}: ${length} pages\n`);
  }, slow);

  const pagesOf = (file: string) => printed.get(file) ?? [];
  const textOf = (file: string) => pagesOf(file).map((page) => page.map(({ text }) => text).join(" "));

  it.each(Object.entries(most))("%s has no more pages than are wanted", (file, [form, copy]) => {
    expect(pagesOf(file).length).toBeGreaterThan(0);
    expect(pagesOf(file).length).toBeLessThanOrEqual(form);
    expect(pagesOf(`blank-${file}`).length).toBeLessThanOrEqual(form);
    expect(pagesOf(`copy-${file}`).length).toBeLessThanOrEqual(copy);
  });

  it.each(recipes.flatMap(({ file }) => [file, `blank-${file}`, `copy-${file}`]))(
    "%s has no letter below 8 points but what is raised or lowered beside another",
    (file) => {
      const small = pagesOf(file).flatMap((page, index) =>
        page
          .filter((text) => text.size < least && !isRaised(text, page))
          // One letter by itself is a raised symbol, such as the m of a fan's exponent.
          .filter(({ text }) => text.length > 1)
          .map(({ text, size }) => `page ${index + 1}, ${size.toFixed(1)} pt: ${text}`),
      );
      expect(small).toEqual([]);
    },
  );

  it.each(recipes.flatMap(({ file }) => [file, `blank-${file}`, `copy-${file}`]))(
    "%s shows every text and number whole, and none over another",
    (file) => {
      const faults = pagesOf(file).flatMap((page, index) => [
        ...findCutTexts(page).map(({ text }) => `page ${index + 1}, cut: ${text}`),
        ...findOverprints(page).map(([one, other]) => `page ${index + 1}: ${one.text} over ${other.text}`),
        ...page.filter(({ text }) => text.includes("###")).map(() => `page ${index + 1}: a number without room`),
      ]);
      expect(faults).toEqual([]);
    },
  );

  it.each(recipes.flatMap(({ file }) => [file, `copy-${file}`]))("%s has no page that is nearly empty", (file) => {
    const lines = pagesOf(file).map((page) => new Set(page.map(({ y }) => Math.round(y))).size);
    expect(lines.flatMap((count, index) => (count < fewestLines ? [`page ${index + 1}: ${count} lines`] : []))).toEqual(
      [],
    );
  });

  it("the report of final-test is a cover and five pages, complete by itself", () => {
    for (const file of ["copy-final-test.xlsx", "copy-final-test-ip.xlsx"]) {
      const texts = textOf(file);
      const report = texts.filter((text) => / Report Page/.test(text.replace(/\s+/g, " ")));
      expect(report).toHaveLength(5);
      for (const heading of [
        "Object and purpose",
        "Instruments",
        "Preparation: every opening",
        "Internal volume and floor area",
        "Induced pressures and flows",
        "Air leakage graph",
        "Result and verdict",
        "Full intervals at 95 %",
        "Validity: the checks",
        "Statement of responsibility",
      ])
        expect(
          report.some((text) => text.includes(heading)),
          `${file}: ${heading}`,
        ).toBe(true);
    }
  });

  it("a run that was not made is not in the copy, not even in the whole one", () => {
    for (const file of ["copy-final-test.xlsx", "whole-final-test.xlsx"])
      expect(textOf(file).filter((text) => / Pressurization 2 Page /.test(text.replace(/\s+/g, " ")))).toEqual([]);
    expect(textOf("whole-final-test.xlsx").some((text) => text.includes("Depressurization, second run"))).toBe(true);
    expect(textOf("copy-final-test.xlsx").some((text) => text.includes("Depressurization, second run"))).toBe(false);
  });
});
