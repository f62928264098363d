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
    const fit = "_xldudf_STILLAIR_AIRVISCOSITY(A1:A2)";
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
        '<c r="D4"><f>INDEX(_xldudf_STILLAIR_AIRVISCOSITY(A1:A2),2)</f><v>0</v></c>',
        '<c r="C5"><f>_xldudf_STILLAIR_AIRVISCOSITY(A1)</f><v>0</v></c>',
      ),
    ).toEqual([]);
  });
});

describe("a table of the add-in in an array formula over too few cells", () => {
  const stations = "_xldudf_STILLAIR_PRESSURESTATIONS(A2,A1+40,5)";

  it("is cautioned of each time, with how much of it is shown", () => {
    expect(
      cautions(
        `<c r="C3"><f t="array" ref="C3:D5">${stations}</f><v>0</v></c>`,
        '<c r="C4"/>',
        '<c r="C5"/>',
        `<c r="C6"><f t="array" ref="C6:C8">${stations}</f><v>0</v></c>`,
      ),
    ).toEqual([
      "Own!C3 shows 3 of 5 rows of its table: enter the array over C3:D7",
      "Own!C6 shows 3 of 5 rows and 1 of 2 columns of its table: enter the array over C6:D10",
    ]);
  });

  it("is none where the array covers the table, or more, or a formula takes a part out of it", () => {
    expect(
      cautions(
        `<c r="C3"><f t="array" ref="C3:D8">${stations}</f><v>0</v></c>`,
        ...Array.from({ length: 5 }, (_, index) => `<c r="A${index + 4}"/>`),
        `<c r="C9"><f t="array" ref="C9:D10">_xlfn.TAKE(${stations},2)</f><v>0</v></c>`,
      ),
    ).toEqual([]);
  });
});

describe("a call stored as it is typed", () => {
  it("is cautioned of, since Excel shows #NAME? for it", () => {
    expect(
      cautions(
        '<c r="C3"><f>STILLAIR.AIRVISCOSITY(A1)</f><v>0</v></c>',
        '<c r="C4"><f>2*STILLAIR.AIRVISCOSITY(A2)</f><v>0</v></c>',
        '<c r="C5"><f>_xldudf_STILLAIR_AIRVISCOSITY(A2)</f><v>0</v></c>',
      ),
    ).toEqual([
      "Own!C3 holds a call that is not bound to the add-in: Excel shows #NAME? until someone enters the formula anew. " +
        "Store calls as _xldudf_STILLAIR_NAME(…), not as STILLAIR.NAME(…); the same in 1 cell (Own!C4)",
    ]);
  });
});
