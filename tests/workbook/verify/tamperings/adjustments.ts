import { formatCellAddress } from "../../../../src/workbook/index";
import type { Spot, Tampered } from "../tampered";
import { numberFormat } from "./appearance";
import type { Tampering } from "./tampering";
import { lowerLimit, resultOf } from "./verdicts";

const directions = ["Depressurization", "Depressurization 2", "Pressurization", "Pressurization 2"];

/** The cover's large figure: the first cell of it that repeats what is judged. */
function coverFigure(workbook: Tampered): Spot {
  const [sheet, address] = resultOf(workbook);
  const own = address.replace(/([A-Z]+)(\d+)/, "\\$?$1\\$?$2");
  return workbook.find(new RegExp(`${sheet}!${own}\\b`), "Cover");
}

/** Figures written into formulas, into formats, and words that say another thing than the verdict. */
export const adjustments: readonly Tampering[] = [
  {
    what: "every direction's volume made a tenth greater in its settings",
    kind: "hard-coded figure",
    plant(workbook) {
      for (const sheet of directions)
        workbook.reformulate(workbook.beside(workbook.find(/^volume$/, sheet), 1), (text) => `(${text})*1.1`);
      return /!X\d+$/;
    },
  },
  {
    what: "the volume of the house made a tenth greater where it is summed",
    kind: "hard-coded figure",
    plant(workbook) {
      const spot = workbook.named("InternalVolume");
      workbook.reformulate(spot, (text) => `(${text})*22/20`);
      return spot;
    },
  },
  {
    what: "every flow of every direction made smaller",
    kind: "hard-coded figure",
    plant(workbook) {
      for (const sheet of directions) {
        const { top, bottom, left } = workbook.test("depressurization").flows;
        for (let row = top; row <= bottom; row++)
          workbook.reformulate([sheet, formatCellAddress(row, left)], (text) => `IFERROR((${text})*0.95,"")`);
      }
      return /!L\d+$/;
    },
  },
  {
    what: "a factor in a cell that no word stands beside",
    kind: "hard-coded figure",
    plant(workbook) {
      const spot = workbook.named("EnvelopeArea");
      const spare: Spot = [spot[0], "AZ9"];
      workbook.put(spare, 1.07);
      workbook.reformulate(spot, (text) => `(${text})*AZ9`);
      return spot;
    },
  },
  {
    what: "a cover that takes something off the result",
    kind: "hard-coded figure",
    plant(workbook) {
      lowerLimit(workbook);
      const spot = coverFigure(workbook);
      workbook.reformulate(spot, (text) => `${text}-0.05`);
      return spot;
    },
  },
  {
    what: "a report that says another figure in words",
    kind: "result typed in",
    plant(workbook) {
      const spot = workbook.find(/±.*TargetUnit/, "Report");
      workbook.put(spot, "0.454 ± 0.021 1/h");
      return spot;
    },
  },
  {
    what: "a report that says another figure by a formula that reads nothing",
    kind: "result typed in",
    plant(workbook) {
      const spot = workbook.find(/±.*TargetUnit/, "Report");
      workbook.put(spot, '="0.454 "&"1/h"');
      return spot;
    },
  },
  {
    what: "a number format that puts digits before the figure's own",
    kind: "hidden value",
    plant(workbook) {
      const spot = coverFigure(workbook);
      numberFormat(workbook, spot, "&quot;0.4&quot;0");
      return spot;
    },
  },
  {
    what: "a fail rounded to the limit, with the unit behind it",
    kind: "verdict depends on rounding",
    plant(workbook) {
      lowerLimit(workbook);
      const result = workbook.value(resultOf(workbook));
      const cover = workbook.book.sheets.find(({ name }) => name === "Cover");
      const showing = [...(cover?.cells.values() ?? [])].filter(({ value }) => value === result);
      const spots = showing.map(({ row, column }): Spot => ["Cover", formatCellAddress(row, column)]);
      for (const spot of spots) numberFormat(workbook, spot, "0.0&quot; 1/h&quot;");
      return spots[0]!;
    },
  },
  {
    what: "a cover that says in a sentence that the house passes",
    kind: "verdict misreported",
    plant(workbook) {
      lowerLimit(workbook);
      const spot = workbook.find(/"PASS"/, "Cover");
      workbook.put(spot, "The house passes its limit");
      return spot;
    },
  },
  {
    what: "a cover with the word typed in",
    kind: "verdict misreported",
    plant(workbook) {
      lowerLimit(workbook);
      const spot = workbook.find(/"PASS"/, "Cover");
      workbook.put(spot, "PASS");
      return spot;
    },
  },
];
