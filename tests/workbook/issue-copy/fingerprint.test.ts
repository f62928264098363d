import { describe, expect, it } from "vitest";
import { buildCellKey, computeFingerprint, openWorkbook, readIssueMark, writeBack } from "../../../src/workbook/index";
import { dynamicArrays, packageOf } from "../file/package";
import { issued } from "./issued";
import { call, rows, styles, house } from "./house";

describe("the fingerprint", () => {
  const { opened, mark, bytes } = issued(house());
  const changed = (sheet: number, row: number, column: number, value: number | string | null) =>
    openWorkbook(writeBack(opened, [{ sheet, row, column, value }])).book;

  it("changes with a reading, a frozen value, a result, a label, with what the list says, and with the date", () => {
    const books = [
      changed(0, 0, 1, 301),
      changed(0, 2, 1, 0.59),
      changed(0, 3, 1, 1.1),
      changed(0, 0, 0, "Volumes"),
      changed(0, 8, 8, 1),
      changed(1, 11, 6, "=STILLAIR.AIRCHANGERATE(B2,B1)*1"),
      changed(1, 11, 7, 0.7),
      changed(1, 3, 3, "2026-11-07"),
      changed(1, 4, 3, "1.0.1"),
    ];
    for (const book of books) expect(computeFingerprint(book)).not.toBe(readIssueMark(book)?.fingerprint);
    expect(new Set(books.map(computeFingerprint)).size).toBe(books.length);
  });

  it("is the same for the same workbook on the same day, byte for byte", () => {
    expect(Buffer.compare(issued(house()).bytes, bytes)).toBe(0);
    expect(issued(house(), { issued: "2026-11-06" }).mark.fingerprint).not.toBe(mark.fingerprint);
  });

  it("does not change with the last digits of a result, nor with an empty text in a blank cell", () => {
    expect(computeFingerprint(changed(0, 3, 1, 1.2 * (1 + 2e-16)))).toBe(mark.fingerprint);
    expect(computeFingerprint(changed(0, 8, 8, ""))).toBe(mark.fingerprint);
  });

  it("changes with a defined name, but not with the print areas that programs add", () => {
    const named = (text: string, more = "") =>
      openWorkbook(
        issued(
          house({ workbook: `<definedNames><definedName name="Limit">${text}</definedName>${more}</definedNames>` }),
        ).bytes,
      ).book;
    const [one, other] = [named("0.6"), named("0.60")].map(computeFingerprint);
    expect(one).toBe(other);
    expect(computeFingerprint(named("0.7"))).not.toBe(one);
    const printed = named("0.6", '<definedName name="_xlnm.Print_Area" localSheetId="0">House!$A$1:$B$4</definedName>');
    expect(computeFingerprint(printed)).toBe(one);
  });

  it("does not change where a program saves a typed TRUE or #N/A as a formula that says just that", () => {
    const typed = (cells: string) =>
      house({ sheets: [rows(call("A1", "_xldudf_STILLAIR_LEAKAGEFLOW(2,1,50)", "100"), cells)] });
    const copy = issued(typed('<c r="A2" t="b"><v>1</v></c><c r="B2" t="e"><v>#N/A</v></c>'));
    const { book } = copy.opened;
    const [sheet, list] = book.sheets;
    if (!sheet || !list) throw new Error("two sheets are needed");
    const savedAs = (texts: readonly string[]) => {
      const cells = new Map(sheet.cells);
      for (const [column, text] of texts.entries()) {
        const key = buildCellKey(1, column);
        cells.set(key, { ...cells.get(key)!, formula: { text } });
      }
      return computeFingerprint({ ...book, sheets: [{ ...sheet, cells }, list] });
    };
    expect(savedAs(["TRUE()", "#N/A"])).toBe(copy.mark.fingerprint);
    expect(savedAs(["TRUE", "NA()"])).not.toBe(copy.mark.fingerprint);
  });

  it("is not told where its form is of another version", () => {
    const foreign = openWorkbook(writeBack(opened, [{ sheet: 1, row: 7, column: 3, value: "4, edge 3" }])).book;
    expect(readIssueMark(opened.book)?.edge).toBeTypeOf("number");
    expect(readIssueMark(foreign)?.edge).toBeUndefined();
    expect(computeFingerprint(foreign)).toBe("");
  });

  it("leaves out what depends on the clock", () => {
    const sheet = rows(
      `${call("A1", "_xldudf_STILLAIR_LEAKAGEFLOW(2,1,50)", "100")}<c r="B1"><f>TODAY()</f><v>46000</v></c><c r="C1"><f>B1+1</f><v>46001</v></c>`,
    );
    const clock = issued(packageOf({ sheets: [sheet], metadata: dynamicArrays, styles }));
    const later = openWorkbook(
      writeBack(clock.opened, [
        { sheet: 0, row: 0, column: 1, value: 46_100 },
        { sheet: 0, row: 0, column: 2, value: 46_101 },
      ]),
    );
    expect(computeFingerprint(later.book)).toBe(clock.mark.fingerprint);
  });

  it("is found again where the list's sheet was renamed and moved", () => {
    const [house_, list] = opened.book.sheets;
    if (!house_ || !list) throw new Error("two sheets are needed");
    const names = opened.book.names.map((name) => ({ ...name, text: name.text.replace("'Frozen formulas'", "List") }));
    const moved = { ...opened.book, sheets: [{ ...list, name: "List" }, house_], names };
    expect(readIssueMark(moved)).toMatchObject({ sheet: 0, fingerprint: mark.fingerprint });
    expect(computeFingerprint(moved)).toBe(mark.fingerprint);
  });
});
