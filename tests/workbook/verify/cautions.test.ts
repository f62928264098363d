import { expect, it } from "vitest";
import { openWorkbook } from "../../../src/workbook/index";
import { verifyWorkbook } from "../../../src/workbook/verify/verify";
import { sheetOf } from "../file/package";
import { addIn } from "./tampered";
import { slow } from "../../time-outs";

it("reports every caution of the reader, though all are of one place and kind", { timeout: slow }, () => {
  const workbook =
    '<definedNames><definedName name="Lost" localSheetId="4">1</definedName></definedNames><calcPr iterate="1"/>';
  const opened = openWorkbook(sheetOf('<row><c s="9"><v>1</v></c></row>', { workbook }));
  const { findings } = verifyWorkbook(opened, addIn, new Date("2026-11-02T09:00:00Z"));
  expect(findings.map(({ severity, kind, what }) => `${severity}: ${kind}: ${what.slice(0, 50)}`)).toEqual([
    "warning: calculation settings: The workbook allows iterative calculation; here ce",
    "warning: calculation settings: The workbook has names that belong to missing shee",
    'warning: calculation settings: The sheet "Sheet1" has cells of a style that does ',
  ]);
});
