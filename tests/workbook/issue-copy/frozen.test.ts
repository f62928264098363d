import { describe, expect, it } from "vitest";
import { methodVersion } from "../../../src/core/index";
import { toStoredForm, toTypedForm } from "../../../src/workbook/formula/parse/formula-text";
import { buildCellKey, compareWithStored, ErrorValue, evaluateBook, openWorkbook } from "../../../src/workbook/index";
import { findFrozenCells } from "../../../src/workbook/issue-copy/frozen-cells";
import { dynamicArrays, packageOf } from "../file/package";
import { issued } from "./issued";
import { call, rows, styles, text } from "./house";

describe("what is frozen", () => {
  const frozenIn = (sheet: string, workbook = "") =>
    issued(packageOf({ sheets: [sheet], metadata: dynamicArrays, styles, workbook })).mark.formulas.map(
      ({ area, kind, formula }) => `${area.top + 1}:${area.left + 1} ${kind} ${formula}`,
    );

  it("is what calls the add-in, by itself, in the midst of a formula, or by a name", () => {
    expect(
      frozenIn(
        rows(
          `${call("A1", "_xldudf_STILLAIR_LEAKAGEFLOW(2,1,50)", "100")}<c r="B1"><f>_xldudf_STILLAIR_LEAKAGEFLOW(2,1,25)+1</f><v>51</v></c>`,
          `<c r="A2"><f>Flow+A1</f><v>200</v></c><c r="B2"><f>Plain+A1</f><v>105</v></c>`,
        ),
        '<definedNames><definedName name="Flow">_xldudf_STILLAIR_LEAKAGEFLOW(2,1,50)</definedName><definedName name="Plain">5</definedName></definedNames>',
      ),
    ).toEqual([
      "1:1 spilling =STILLAIR.LEAKAGEFLOW(2,1,50)",
      "1:2 one cell =STILLAIR.LEAKAGEFLOW(2,1,25)+1",
      "2:1 one cell =Flow+A1",
    ]);
  });

  it("is what takes the whole of a frozen array, which a value no longer has, and no more", () => {
    const sheet = rows(
      `${call("A1", "_xldudf_STILLAIR_INDUCEDPRESSURE(C1:C2,-2)", "-48", "A1:A2")}<c r="C1"><v>-50</v></c><c r="D1"><f>SUM(_xlfn.ANCHORARRAY(A1))</f><v>-76</v></c><c r="E1"><f>SUM(A1:A2)</f><v>-76</v></c>`,
      '<c r="A2" s="1"><v>-28</v></c><c r="C2"><v>-30</v></c>',
    );
    expect(frozenIn(sheet)).toEqual(["1:1 spilling =STILLAIR.INDUCEDPRESSURE(C1:C2,-2)", "1:4 one cell =SUM(A1#)"]);
  });

  it("is found though two names mean each other without an end", () => {
    const sheet = rows(
      `${call("A1", "_xldudf_STILLAIR_LEAKAGEFLOW(2,1,50)", "100")}<c r="B1"><f>_xlfn.ANCHORARRAY(Here)</f><v>1</v></c>`,
    );
    const names =
      '<definedNames><definedName name="Here">There</definedName><definedName name="There">Here</definedName></definedNames>';
    const book = openWorkbook(packageOf({ sheets: [sheet], metadata: dynamicArrays, styles, workbook: names })).book;
    expect(findFrozenCells(book).map(({ formula }) => formula.text)).toEqual(["_xldudf_STILLAIR_LEAKAGEFLOW(2,1,50)"]);
  });

  it("keeps its look, and what an array had filled becomes plain values", () => {
    const sheet = rows(
      `${call("A1", "_xldudf_STILLAIR_INDUCEDPRESSURE(C1:C2,-2)", "-48", "A1:A2")}<c r="C1"><v>-50</v></c>`,
      '<c r="A2" s="1"><v>-28</v></c><c r="C2"><v>-30</v></c>',
    );
    const { bytes } = issued(packageOf({ sheets: [sheet], metadata: dynamicArrays, styles }));
    expect(text(bytes, "xl/worksheets/sheet1.xml")).toContain('<c r="A1" s="1"><v>-48</v></c>');
    expect(text(bytes, "xl/worksheets/sheet1.xml")).toContain('<c r="A2" s="1"><v>-28</v></c>');
  });

  it("keeps an empty text as one: a blank cell would count otherwise in the formulas that are left", () => {
    const sheet = rows(
      `${call("A1", "_xldudf_STILLAIR_INDUCEDPRESSURE(C1:C3,-2)", "-48", "A1:A3")}<c r="B1"><f>COUNTA(A1:A3)</f><v>3</v></c><c r="C1"><v>-50</v></c>`,
      '<c r="A2" s="1" t="str"><v></v></c>',
      '<c r="A3" s="1"><v>-28</v></c><c r="C3"><v>-30</v></c>',
    );
    const { opened } = issued(packageOf({ sheets: [sheet], metadata: dynamicArrays, styles }));
    expect(opened.book.sheets[0]?.cells.get(buildCellKey(1, 0))?.value).toBe("");
    expect(compareWithStored(opened.book, evaluateBook(opened.book))).toEqual([]);
  });

  it("keeps a text as a text and an error as an error", () => {
    const sheet = rows(
      `<c r="A1" cm="1" t="str"><f t="array" ref="A1">_xldudf_STILLAIR_METHODVERSION()</f><v>${methodVersion}</v></c>` +
        '<c r="B1" cm="1" t="e"><f t="array" ref="B1">_xldudf_STILLAIR_LEAKAGEFLOW(NA(),1,50)</f><v>#N/A</v></c>',
    );
    const { opened } = issued(packageOf({ sheets: [sheet], metadata: dynamicArrays, styles }));
    expect(opened.book.sheets[0]?.cells.get(buildCellKey(0, 0))).toMatchObject({ value: methodVersion });
    expect(opened.book.sheets[0]?.cells.get(buildCellKey(0, 1))?.value).toEqual(new ErrorValue("#N/A"));
  });
});

it.each([
  ["_xldudf_STILLAIR_PASSFAIL(A1,B1)", "=STILLAIR.PASSFAIL(A1,B1)"],
  [
    'IF(A1="_xldudf_STILLAIR_X(",[2]!_xldudf_STILLAIR_METHODVERSION(),"")',
    '=IF(A1="_xldudf_STILLAIR_X(",STILLAIR.METHODVERSION(),"")',
  ],
  ["_xlfn.ANCHORARRAY('Air leakage'!$B$2)", "='Air leakage'!$B$2#"],
  ['_FV(A1,"n50")*2', "=A1.n50*2"],
  ["_FV('Air leakage'!A1,\"C_L\")", "='Air leakage'!A1.C_L"],
])("%s is typed as %s, and stored so that it means the same", (stored, typed) => {
  expect(toTypedForm(stored)).toBe(typed);
  expect(toTypedForm(toStoredForm(typed))).toBe(typed);
});
