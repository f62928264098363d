import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { corpusNames, corpusWorkbook } from "./corpus/corpus";
import { allWays, mainWays } from "./runs/commands";
import { sheetOf } from "../workbook/file/package";
import { buildHelper } from "./runs/in-process";
import { programOf } from "./runs/program";
import { faultsOfText } from "./runs/judge";
import { Trial } from "./trial";

let trial: Trial;
let helper: ReturnType<typeof buildHelper>;
beforeAll(() => {
  helper = buildHelper();
  trial = new Trial(helper.file);
});
afterAll(() => {
  trial.close();
  helper.remove();
});

/** Each of these also as a user starts it, by a way that changes from workbook to workbook. */
const names = corpusNames().map((name, index) => ({ name, program: allWays[index % allWays.length]! }));

describe("what once broke a command goes through every one of them", () => {
  it.each(names)("$name", async ({ name, program }) => {
    const outcomes = await trial.run(corpusWorkbook(name).bytes, mainWays, [program]);
    const faults = outcomes.flatMap(({ way, as, faults: list }) => list.map((fault) => ({ way, as, ...fault })));
    expect(faults).toEqual([]);
    expect(outcomes).toHaveLength(mainWays.length + 1);
  });
});

describe("a folder with workbooks that once ended a run", () => {
  const broken = ["literal-10MB", "plus-5000", "drawing-element-toString", "terminal-spoof", "sheet-part-is-html"];

  it.each(["recalc", "verify"])("%s goes on to the last one", async (command) => {
    const folder = mkdtempSync(join(tmpdir(), "fuzz-folder-"));
    try {
      for (const name of broken) writeFileSync(join(folder, `${name}.xlsx`), corpusWorkbook(name).bytes);
      writeFileSync(join(folder, "zz-sound.xlsx"), sheetOf('<row r="1"><c r="A1"><f>1+1</f><v>2</v></c></row>'));
      const { out, err, faults } = await programOf([command, folder]);
      expect([...faults, ...faultsOfText(out, err)]).toEqual([]);
      for (const name of [...broken, "zz-sound"]) expect(out + err).toContain(`${name}.xlsx`);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
