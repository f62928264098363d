import { expect, it } from "vitest";
import { methodVersion } from "../../../src/core/index";
import { formatCellAddress, evaluateBook, openWorkbook, writeBack, type CellValue } from "../../../src/workbook/index";
import { verifyWorkbook } from "../../../src/workbook/verify/verify";
import { dynamicArrays, packageOf } from "../file/package";
import { sheetData } from "../graph/test-workbook";
import { ownSheet } from "./bare";
import { addIn } from "./tampered";
import { slow } from "../../time-outs";

/** Where the workbook states the version: in the last rows of the tables of results and of checks, and in a cell for the report. */
const [down, up, checksDown, checksUp, report] = ["AC42", "AK42", "AC78", "AC118", "B52"];
const everywhere = (version: string) =>
  Object.fromEntries([down, up, checksDown, checksUp, report].map((place) => [place, version]));

/** What a review says of a workbook that was saved with other values than its formulas give, in some of its cells. */
function findingsWith(stored: Readonly<Record<string, CellValue>>) {
  const cells = ownSheet({}, (own) => (own["B52"] = { f: "_xldudf_STILLAIR_METHODVERSION(B50)" }));
  const sheets = [sheetData(cells)];
  const opened = openWorkbook(packageOf({ sheets, sheetNames: ["Test"], metadata: dynamicArrays }));
  const changes = evaluateBook(opened.book, { addIn }).cells.flatMap(({ sheet, row, column, outcome }) => {
    const address = formatCellAddress(row, column);
    if (!outcome.evaluated) return [];
    return [{ sheet, row, column, value: stored[address] ?? outcome.value }];
  });
  const { findings } = verifyWorkbook(
    openWorkbook(writeBack(opened, changes)),
    addIn,
    new Date("2026-11-02T09:00:00Z"),
  );
  return findings.filter(({ kind }) => kind === "method version" || kind === "old result");
}

it("a workbook of this version states it everywhere, and nothing is said of it", { timeout: slow }, () => {
  expect(findingsWith({})).toEqual([]);
});

it("an earlier version throughout is a note: the results were recomputed with this one", { timeout: slow }, () => {
  const findings = findingsWith(everywhere("0.9.0"));
  expect(findings).toHaveLength(1);
  expect(findings[0]).toMatchObject({ kind: "method version", severity: "note", place: `Test!${down}` });
  expect(findings[0]?.what).toContain("0.9.0");
  expect(findings[0]?.what).toContain(methodVersion);
});

it("a report that still names the version before the results were computed anew is doubtful", { timeout: slow }, () => {
  const findings = findingsWith({ [report]: "0.9.0" });
  expect(findings).toHaveLength(1);
  expect(findings[0]).toMatchObject({ kind: "method version", severity: "warning", place: "Test!B52" });
  expect(findings[0]?.what).toContain(
    `0.9.0 in Test!B52; ${methodVersion} in Test!AC42, Test!AK42, Test!AC78, Test!AC118`,
  );
});

it("tables of two versions are doubtful, and one finding names them all", { timeout: slow }, () => {
  const findings = findingsWith({ [up]: "0.9.0", [report]: "0.8.0" });
  expect(findings.map(({ severity, place }) => [severity, place])).toEqual([["warning", "Test!AK42"]]);
  expect(findings[0]?.what).toContain(`0.9.0 in Test!AK42; 0.8.0 in Test!B52; ${methodVersion} in Test!AC42`);
});

it("what is no version is an old result, as in any other cell", { timeout: slow }, () => {
  expect(findingsWith({ [report]: "the latest" }).map(({ kind, place }) => [kind, place])).toEqual([
    ["old result", "Test!B52"],
  ]);
});

it("other results that are old stay so beside an old version", { timeout: slow }, () => {
  const findings = findingsWith({ ...everywhere("0.9.0"), B50: 0.1 });
  expect(findings.map(({ kind, severity }) => `${severity}: ${kind}`)).toEqual([
    "error: old result",
    "note: method version",
  ]);
});
