import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { corpusNames, corpusWorkbook, large } from "./corpus/corpus";
import { allWays, mainWays } from "./runs/commands";
import { sheetOf } from "../workbook/file/package";
import { buildHelper } from "./runs/in-process";
import { programOf } from "./runs/program";
import { faultsOfText } from "./runs/judge";
import { Trial } from "./trial";
import { slow } from "../time-outs";

let trial: Trial;
let helper: ReturnType<typeof buildHelper>;
beforeAll(() => {
  helper = buildHelper();
  trial = new Trial(helper.file);
}, slow);
afterAll(() => {
  trial.close();
  helper.remove();
});

/** A small one of so many also goes through a command as a user starts it, which takes longer than all ways in process. */
const programOnceIn = 5;

const cases = corpusNames().map((name, index) => {
  const way = large[name];
  if (way) return { name, ways: [way], programs: [] };
  const program = allWays[(index / programOnceIn) % allWays.length];
  return { name, ways: mainWays, programs: program ? [program] : [] };
});

// A run that does not end is stopped after a minute of processor time, and is then a fault.
describe(
  "what once broke a command goes through every one of them, what is large through one",
  { timeout: slow },
  () => {
    it.each(cases)("$name", async ({ name, ways, programs }) => {
      const outcomes = await trial.run(corpusWorkbook(name).bytes, ways, programs);
      const faults = outcomes.flatMap(({ way, as, faults: list }) => list.map((fault) => ({ way, as, ...fault })));
      expect(faults).toEqual([]);
      expect(outcomes).toHaveLength(ways.length + programs.length);
    });

    it("every large one is of the corpus, and each main way is tried by one of them", () => {
      expect(Object.keys(large).filter((name) => !corpusNames().includes(name))).toEqual([]);
      expect(new Set(Object.values(large))).toEqual(new Set(mainWays));
      expect(cases.flatMap(({ programs }) => programs).length).toBeGreaterThan(5);
    });
  },
);

describe("a folder with workbooks that once ended a run", { timeout: slow }, () => {
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
