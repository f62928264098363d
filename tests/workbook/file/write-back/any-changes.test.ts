import fc from "fast-check";
import { strFromU8, strToU8, unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { buildCellKey, ErrorValue, openWorkbook, writeBack } from "../../../../src/workbook/index";
import { sheetOf } from "../package";
import { patch } from "./sheet-of";

describe("any changes to any sheet", () => {
  const value = fc.oneof(
    fc.double({ noNaN: true, noDefaultInfinity: true }).map((number) => (number === 0 ? 0 : number)),
    fc.string({ unit: "binary", maxLength: 12 }),
    fc.boolean(),
    fc.constantFrom(...(["#N/A", "#DIV/0!", "#NULL!"] as const)).map((code) => new ErrorValue(code)),
  );
  /** The ways in which a cell may stand in a file. */
  const stored = fc.constantFrom(
    ' s="1"/>',
    "><v>1.50</v></c>",
    ' t="s"><v>0</v></c>',
    ' t="str" s="2"><f>B1&amp;"&lt;"</f><v>a</v></c>',
    "><f>1+1</f><v >2</v></c>",
    ' t="inlineStr" ><is><r><t>x</t></r></is></c>',
    ' t="e"><f ca="1">NA()</f><v>#N/A</v></c>',
    " ><f>B9</f></c>",
  );
  const sheet = fc.uniqueArray(fc.tuple(fc.nat(9), fc.nat(8), stored, fc.option(value, { freq: 2 })), {
    selector: ([row, column]) => row * 100 + column,
    maxLength: 40,
  });

  it("touch those cells alone, and read back as asked", () => {
    fc.assert(
      fc.property(sheet, (cells) => {
        const inOrder = [...cells].sort(([a, b], [c, d]) => a - c || b - d);
        const name = (row: number, column: number): string => `${"ABCDEFGHI"[column]}${row + 1}`;
        const rows = [...new Set(inOrder.map(([row]) => row))].map((row) => {
          const inside = inOrder
            .filter(([own]) => own === row)
            .map(([, column, rest]) => `<c r="${name(row, column)}"${rest}`);
          return `<row r="${row + 1}" ht="15">\n${inside.join(" ")}</row>`;
        });
        const before = `<sheetData>${rows.join("\n")}</sheetData><pageMargins left="0.7"/>`;
        const patches = inOrder.flatMap(([row, column, , to]) => (to === null ? [] : [patch(name(row, column), to)]));
        const bytes = sheetOf("", {
          strings: "<si><t>shared</t></si>",
          parts: { "xl/worksheets/sheet1.xml": strToU8(`<worksheet>${before}</worksheet>`) },
        });
        const copy = writeBack(openWorkbook(bytes), patches);
        const after = strFromU8(unzipSync(copy)["xl/worksheets/sheet1.xml"] ?? new Uint8Array()).slice(11, -12);

        const oneCell = /<c [^>]*?(?:\/>|>.*?<\/c>)/gs;
        expect(after.replace(oneCell, "C")).toBe(before.replace(oneCell, "C"));
        const written = openWorkbook(copy).book.sheets[0]?.cells;
        const [cellsBefore, cellsAfter] = [before.match(oneCell) ?? [], after.match(oneCell) ?? []];
        inOrder.forEach(([row, column, , to], index) => {
          if (to === null) expect(cellsAfter[index]).toBe(cellsBefore[index]);
          else expect(written?.get(buildCellKey(row, column))?.value).toEqual(to);
        });
      }),
      { numRuns: 200 },
    );
  });
});
