import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { runRecalcCommand } from "../../src/cli/recalc/command";
import { sheetOf } from "../workbook/file/package";
import { listening } from "./listening";
import { slow } from "../time-outs";

let folder: string;
let file: string;

/** 2 200 cells that show one text of 32 767 characters, where the file holds "a": 72 million characters. */
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "long-texts-"));
  file = join(folder, "long.xlsx");
  const cells = `<row>${'<c t="str"><f>$A$1</f><v>a</v></c>'.repeat(100)}</row>`.repeat(22);
  const long = `<row><c t="str"><v>${"x".repeat(32_767)}</v></c></row>`;
  writeFileSync(file, sheetOf(long + cells));
});
afterAll(() => rmSync(folder, { recursive: true }));

it(
  "says that the texts are too many for JSON, with the exit code of a workbook that cannot be read",
  { timeout: slow },
  () => {
    const { output, heard } = listening();
    expect(runRecalcCommand([file, "--json"], output)).toBe(2);
    expect(JSON.parse(heard().out)).toEqual({
      exitCode: 2,
      workbooks: [
        {
          file,
          status: "unreadable",
          problem: "the differing texts exceed 67108864 characters, too many for --json",
        },
      ],
    });
  },
);

it("says that the page would be too long, and writes none", { timeout: slow }, () => {
  const { output, heard } = listening();
  const page = join(folder, "page.html");
  expect(runRecalcCommand([file, "--html", page], output)).toBe(2);
  expect(heard().err).toMatch(/a page of this workbook would exceed 67108864 characters/);
  expect(existsSync(page)).toBe(false);
});
