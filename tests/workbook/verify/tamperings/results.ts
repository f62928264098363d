import { filled } from "../tampered";
import type { Tampering } from "./tampering";

/** Results that no longer follow the readings. */
export const results: readonly Tampering[] = [
  {
    what: "a changed reading beside the old result",
    kind: "old result",
    keepsOldResults: true,
    plant(workbook) {
      const { sheet, fanPressures } = workbook.test("depressurization");
      const [first] = filled(workbook, sheet, fanPressures);
      workbook.put(first!, 201.5);
      return new RegExp(`^${sheet}!`);
    },
  },
  {
    what: "a figure in the midst of a result table typed over in the file",
    kind: "old result",
    keepsOldResults: true,
    plant(workbook) {
      const table = workbook.find(/STILLAIR_TESTRESULT\("depressurization"/);
      const value = workbook.beside(table, 2, 25);
      workbook.put(value, 0.41);
      return value;
    },
  },
  {
    what: "a formula in a column typed over with a round number",
    kind: "formula overwritten",
    plant(workbook) {
      const label = workbook.find(/^Kitchen$/, "Rooms");
      const area = workbook.beside(label, 4);
      workbook.put(area, 15);
      return area;
    },
  },
  {
    what: "a formula of one direction typed over, the other one's left",
    kind: "formula overwritten",
    plant(workbook) {
      const step = workbook.find(/SQRT\(R\d+\/R\d+\)/, "Depressurization");
      workbook.put(step, 1.05);
      return step;
    },
  },
  {
    what: "a cell of the chain typed over with its own old value",
    kind: "formula frozen to a number",
    plant(workbook) {
      const passed = workbook.find(/STILLAIR_PASSFAIL\(/);
      const [, result = ""] = /PASSFAIL\((\$?[A-Z]+\$?\d+)/.exec(workbook.formula(passed)) ?? [];
      const spot = [passed[0], result.replaceAll("$", "")] as const;
      const value = workbook.value(spot);
      if (typeof value !== "number") throw new Error("no result to type over");
      workbook.put(spot, value);
      return spot;
    },
  },
  {
    what: "a formula deleted from a column of copies",
    kind: "formula missing",
    plant(workbook) {
      const label = workbook.find(/^Study$/, "Rooms");
      const area = workbook.beside(label, 4);
      workbook.put(area, null);
      return area;
    },
  },
  {
    what: "an error hidden by IFERROR with a number",
    kind: "masked error",
    plant(workbook) {
      const [sheet] = workbook.named("InternalVolume");
      const spot = [sheet, "M2"] as const;
      workbook.put(spot, '=IFERROR(VALUE("ten"),10)');
      return spot;
    },
  },
  {
    what: "a circular reference",
    kind: "circular reference",
    plant(workbook) {
      const [sheet] = workbook.named("InternalVolume");
      workbook.put([sheet, "M2"], "=M3+1");
      workbook.put([sheet, "M3"], "=M2-1");
      return /^Rooms!M[23]$/;
    },
  },
  {
    what: "a baseline handed over raw, so that a blank counts as 0 Pa in some versions of Excel",
    kind: "blank cells matter",
    plant(workbook) {
      const { sheet, before } = workbook.test("depressurization");
      const cells = filled(workbook, sheet, before);
      workbook.put(cells.at(-1)!, null);
      const mean = workbook.find(/STILLAIR_BASELINEPRESSURE\(/, sheet);
      workbook.reformulate(mean, (text) => text.replace(/IF\((\$?[A-Z]+\$?\d+:\$?[A-Z]+\$?\d+)="","",\1\)/g, "$1"));
      return mean;
    },
  },
];
