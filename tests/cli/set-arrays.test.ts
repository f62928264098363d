import { describe, expect, it } from "vitest";
import { collectPatches } from "../../src/workbook/file/write/patches";
import { readSetting } from "../../src/cli/recalc/read-setting";
import { locateSettings } from "../../src/cli/recalc/set-cells";
import {
  buildCellKey,
  compareWithStored,
  evaluateBook,
  openWorkbook,
  readLabels,
  writeBack,
} from "../../src/workbook/index";
import { dynamicArrays, packageOf } from "../workbook/file/package";

describe("--set refuses what a computer's settings may make a number or date of", () => {
  it.each(["1/2", "24-Nov", "$5", "(5)", "5 1/2", "\u22125", "\u0665", "\uff15", "3 pm", "5 kr", "'512"])(
    "%s",
    (text) => {
      expect(() => readSetting(`Sheet!A1=${text}`)).toThrow(/text in double quotes/);
      expect(readSetting(`Sheet!A1="${text}"`).value).toBe(text);
    },
  );

  it.each(["Room 5", "pressurization", "3x4", "m\u00b2", "ISO 9972"])("but not %s", (text) => {
    expect(readSetting(`Sheet!A1=${text}`).value).toBe(text);
  });
});

describe("arrays", () => {
  const cells =
    '<sheetData><row r="1"><c r="A1"><v>4</v></c><c r="B1" cm="1"><f t="array" ref="B1:B3">SEQUENCE(A1)</f><v>1</v></c>' +
    '<c r="C1"><f t="array" ref="C1:C2">ROW(A1:A2)</f><v>1</v></c></row><row r="2"><c r="B2"><v>2</v></c><c r="C2"><v>2</v></c></row>' +
    '<row r="3"><c r="B3" t="str"><v></v></c></row></sheetData>';

  it("in braces are not set in part, not even with --over-formulas", () => {
    const { book } = openWorkbook(packageOf({ sheets: [cells], metadata: dynamicArrays }));
    const locate = (typed: string): unknown =>
      locateSettings(
        book,
        [readSetting(typed)],
        true,
        readLabels(book, evaluateBook(book), () => false),
        () => true,
      );
    expect(() => locate("Sheet1!C1=5")).toThrow(/C1 is part of the array formula in C1:C2/);
    expect(() => locate("Sheet1!C2=5")).toThrow(/C2 is filled by the formula in C1/);
    expect(locate("Sheet1!B1=5")).toHaveLength(1);
  });

  it("that shrink leave no empty text behind in the copy", () => {
    const opened = openWorkbook(
      packageOf({ sheets: [cells.replace("<v>4</v>", "<v>2</v>")], metadata: dynamicArrays }),
    );
    const evaluation = evaluateBook(opened.book);
    const differences = compareWithStored(opened.book, evaluation);
    expect(differences).toEqual([]);
    const patches = collectPatches(opened.book, evaluation, differences, undefined);
    const copy = openWorkbook(writeBack(opened, patches)).book;
    expect(copy.sheets[0]?.cells.get(buildCellKey(0, 1))?.formula?.array).toEqual({
      top: 0,
      left: 1,
      bottom: 1,
      right: 1,
    });
    expect(copy.sheets[0]?.cells.has(buildCellKey(2, 1))).toBe(false);
    const grown = evaluateBook(copy, { set: [{ sheet: "Sheet1", row: 0, column: 0, value: 4 }] });
    expect(grown.outcome(0, 3, 1)).toEqual({ evaluated: true, value: 4 });
  });
});
