import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { runGraphCommand } from "../../src/cli/graph/command";
import { issueCopyCommand } from "../../src/cli/issue-copy/command";
import { runRecalcCommand } from "../../src/cli/recalc/command";
import type { Output } from "../../src/cli/shared/output";
import { traceCommand } from "../../src/cli/trace/command";
import { verifyCommand } from "../../src/cli/verify/command";
import { dynamicArrays, packageOf } from "../workbook/file/package";
import { listening } from "./listening";

const folder = mkdtempSync(join(tmpdir(), "long-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Longer than a line, shorter than what Excel refuses. */
const long = "q".repeat(3000);
const number = "7".repeat(3000);
const text = (address: string, words = long) => `<c r="${address}" t="inlineStr"><is><t>${words}</t></is></c>`;
const formula = (address: string, words: string, stored = "1") =>
  `<c r="${address}" s="1"><f>${words}</f><v>${stored}</v></c>`;

const formulas = [
  `B1*2`,
  `A1+1`,
  `"${long}"+1`,
  `${long}(1)`,
  `${long}`,
  `NoName${long}+1`,
  `Long+1`,
  `Gone+1`,
  `Table1[${long}]`,
  `INDIRECT("${long}")`,
  `INDIRECT(A1)`,
  `VLOOKUP(A1,D1:E9,2,FALSE)`,
  `MATCH("${long}",D1:D9,0)`,
  `CONVERT(1,A1,"m")`,
  `TEXT(1,A1)`,
  `VALUE(A1)`,
  `DATEVALUE(A1)`,
  `SUMIF(D1:D9,A1)`,
  `{1,2,`,
  `"${long}`,
  `'${long}'!A1`,
  `[1]${long}!A1`,
  `_xldudf_OTHER_${long}(1)`,
  `_xldudf_STILLAIR_${long}(1)`,
  `_xldudf_STILLAIR_CONVERTUNITS(B1,A1,"L/s")`,
  `_xldudf_STILLAIR_PASSFAIL(B1,"${long}",3)`,
  `_xldudf_STILLAIR_AIRDENSITY(20,101325,0.5,A1)`,
  `IF(B1&gt;3,"pass ${long}","fail")`,
  `_xlfn.LET(_xlpm.${long},1,_xlpm.${long}+B7)`,
  `ADDRESS(1,1,1,TRUE,A1)`,
  `CELL(A1,B1)`,
  `_FV(A1,"${long}")`,
  `HYPERLINK(A1,A1)&amp;1+"${long}"`,
];

const workbook = packageOf({
  sheets: [
    `<sheetData><row r="1">${text("A1")}<c r="B1"><v>5</v></c>${text("C1")}</row>` +
      formulas
        .map(
          (words, index) =>
            `<row r="${index + 2}">${text(`A${index + 2}`)}${formula(`B${index + 2}`, words)}${text(`C${index + 2}`)}</row>`,
        )
        .join("") +
      `</sheetData><dataValidations count="1"><dataValidation type="list" sqref="B1" showErrorMessage="1" error="${long}" allowBlank="0"><formula1>"${long},${long}"</formula1></dataValidation></dataValidations>`,
  ],
  workbook:
    `<definedNames><definedName name="Long">"${long}"</definedName><definedName name="Gone">#REF!+"${long}"</definedName>` +
    `<definedName name="${long}x">Sheet1!$Z$1</definedName><definedName name="Summary">Sheet1!$A$1:$C$40</definedName></definedNames>`,
  styles: `<numFmts><numFmt numFmtId="164" formatCode="&quot;${long}&quot;"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="164"/></cellXfs>`,
  metadata: dynamicArrays,
});
const file = join(folder, "long.xlsx");
writeFileSync(file, workbook);

type Command = (given: readonly string[], output: Output) => number | Promise<number>;
const verify: Command = (given, output) => verifyCommand(given, output, "");

it.each<[name: string, command: Command, given: readonly string[]]>([
  ["recalc", runRecalcCommand, [file, "--list"]],
  ["recalc --set, refused", runRecalcCommand, [file, "--set", `Sheet1!B1=${long}`]],
  ["recalc --set, no such sheet", runRecalcCommand, [file, "--set", `${long}!B1=1`]],
  ["recalc --set, no such cell", runRecalcCommand, [file, "--set", `Sheet1!A${number}=1`]],
  ["recalc --set, no number", runRecalcCommand, [file, "--set", `Sheet1!B1=${number}`]],
  ["recalc --set, a formula", runRecalcCommand, [file, "--set", `Sheet1!B1=="${long}"`]],
  ["recalc --set, over a formula", runRecalcCommand, [file, "--set", "Sheet1!B3=1"]],
  ["recalc --set, nonsense", runRecalcCommand, [file, "--set", long]],
  ["recalc --out", runRecalcCommand, [file, "--out", join(folder, "a.xlsx")]],
  ["recalc, no such option", runRecalcCommand, [file, `--${long}`]],
  ["verify", verify, [file, "--list"]],
  ["verify, no such number of threads", verify, [file, "--threads", long]],
  ...formulas.map((_, index): [string, Command, readonly string[]] => [
    `trace of ${(formulas[index] ?? "").slice(0, 20)}`,
    traceCommand,
    [file, `Sheet1!B${index + 2}`, "--depth", "1"],
  ]),
  ["trace, no such sheet", traceCommand, [file, `${long}!B1`]],
  ["trace, no such cell", traceCommand, [file, `Sheet1!A${number}`]],
  ["trace, no such name", traceCommand, [file, long]],
  ["trace, a name that is no cell", traceCommand, [file, "Long"]],
  ["trace --depth", traceCommand, [file, "Sheet1!B2", "--depth", long]],
  ["graph", runGraphCommand, [file, "--list"]],
  ["graph --cell", runGraphCommand, [file, "--cell", long, "--out", join(folder, "b")]],
  ["graph --limit", runGraphCommand, [file, "--limit", long]],
  ["issue-copy", issueCopyCommand, [file, "--out", join(folder, "c.xlsx")]],
  ["issue-copy --date", issueCopyCommand, [file, "--out", join(folder, "d.xlsx"), "--date", long]],
])("%s repeats at most 80 characters of a value", async (_, command, given) => {
  const { output, heard } = listening();
  await command(given, output);
  const said = heard().out + heard().err;
  expect(said).not.toBe("");
  // A formula that a trace shows is what it was asked for, cut at four hundred characters.
  const lines = said.split("\n").filter((line) => !/^ *(formula|in words|shown for): /.test(line));
  expect(
    lines
      .filter((line) => /q{81}|7{81}/i.test(line))
      .map((line) => line.replace(/(q|7){81,}/gi, "<$1…>").slice(0, 400)),
  ).toEqual([]);
});
