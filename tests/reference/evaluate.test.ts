import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { openWorkbook } from "../../src/workbook/index";
import { distilled } from "../authorities/excel-workbooks/distilled";
import { expectAgreement } from "../workbook/formula/agreement";
import { folder, workbooksIn } from "./workbooks";

it("no cell evaluates to something else than Excel stored", () => {
  const reasons = expectAgreement(workbooksIn(folder).map(([path, bytes]) => [path, openWorkbook(bytes).book]));
  process.stdout.write(reasons.map((reason) => `  ${reason}\n`).join(""));
});

it("the project's vectors are what these workbooks give", () => {
  for (const [file, text] of distilled(folder)) {
    const stored = readFileSync(new URL(`../authorities/excel-workbooks/${file}`, import.meta.url), "utf8");
    expect(text === stored, `${file} is not what distil.ts makes of ${folder}`).toBe(true);
  }
});
