import { describe, expect, it } from "vitest";
import { addInRegistry } from "../../src/cli/shared/add-in";
import { recalculate } from "../../src/cli/recalc/recalculate";
import { dynamicArrays, packageOf } from "../workbook/file/package";

/** What recalc cautions of, in a workbook with one temperature column and the cells given. */
function cautions(...cells: string[]): readonly string[] {
  const bytes = packageOf({
    sheets: [
      '<sheetData><row r="1"><c r="A1"><v>20</v></c></row><row r="2"><c r="A2"><v>5</v></c></row>' +
        cells.map((cell, index) => `<row r="${index + 3}">${cell}</row>`).join("") +
        "</sheetData>",
    ],
    sheetNames: ["Own"],
    metadata: dynamicArrays,
  });
  const options = { addIn: addInRegistry(), blankAsZero: false, settings: [], overFormulas: false };
  return recalculate("own.xlsx", bytes, { ...options, copy: false, keepOldValues: false, page: false, step: () => {} })
    .cautions;
}

describe("a table of the add-in in a formula written for one cell", () => {
  it("is cautioned of: its size, the area that it needs, and further cells", () => {
    const fit = "STILLAIR.AIRVISCOSITY(A1:A2)";
    const found = cautions(`<c r="C3"><f>${fit}</f><v>0</v></c>`, `<c r="C4"><f>IF(TRUE,${fit})</f><v>0</v></c>`);
    expect(found).toEqual([
      expect.stringMatching(
        /^Own!C3 shows only the first cell of a table of 2 rows and 1 column, .*over C3:C4 .*ArrayFormula\("C3:C4", "=…"\)\); the same in 1 cell \(Own!C4\)$/,
      ),
    ]);
  });

  it("is none where the formula is an array formula, takes one value out of the table, or gives one", () => {
    expect(
      cautions(
        '<c r="C3" cm="1"><f t="array" ref="C3:C4">_xldudf_STILLAIR_AIRVISCOSITY(A1:A2)</f><v>0</v></c>',
        '<c r="D4"><f>INDEX(STILLAIR.AIRVISCOSITY(A1:A2),2)</f><v>0</v></c>',
        '<c r="C5"><f>STILLAIR.AIRVISCOSITY(A1)</f><v>0</v></c>',
      ),
    ).toEqual([]);
  });
});
