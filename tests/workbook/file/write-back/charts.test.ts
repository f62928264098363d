import { strFromU8, strToU8, unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { openWorkbook, writeBack } from "../../../../src/workbook/index";
import { sheetOf } from "../package";
import { patch } from "./sheet-of";

const cells =
  '<sheetData><row r="1"><c r="A1"><v>1</v></c><c r="B1" t="inlineStr"><is><t>a</t></is></c></row>' +
  '<row r="2"><c r="A2"><v>2</v></c></row><row r="3"><c r="A3"><v>3</v></c></row></sheetData>';

/** The chart of a workbook after some cells were changed. */
function chartAfter(chart: Uint8Array, ...changes: readonly ReturnType<typeof patch>[]): Uint8Array {
  const opened = openWorkbook(sheetOf(cells, { parts: { "xl/charts/chart1.xml": chart } }));
  return unzipSync(writeBack(opened, changes))["xl/charts/chart1.xml"] ?? new Uint8Array();
}

const written = (inner: string, ...changes: readonly ReturnType<typeof patch>[]): string =>
  strFromU8(chartAfter(strToU8(`<c:chart>${inner}</c:chart>`), ...changes)).replace(/<\/?c:chart>/g, "");

describe("the values that a chart keeps of its cells", () => {
  const old = '<c:numCache><c:formatCode>0.0</c:formatCode><c:ptCount val="1"/></c:numCache><c:extLst/>';
  const points = (format: string, ...values: readonly string[]) =>
    `<c:numCache><c:formatCode>${format}</c:formatCode><c:ptCount val="3"/>${values
      .map((value, index) => (value === "" ? "" : `<c:pt idx="${index}"><c:v>${value}</c:v></c:pt>`))
      .join("")}</c:numCache>`;

  it("follow the cells; format and extensions stay", () => {
    const reference = "<c:f>Sheet1!$A$1:$A$3</c:f>";
    expect(written(`<c:numRef>${reference}${old}</c:numRef>`, patch("A2", 7.5))).toBe(
      `<c:numRef>${reference}${points("0.0", "1", "7.5", "3")}<c:extLst/></c:numRef>`,
    );
    expect(written(`<c:numRef>${reference}</c:numRef>`, patch("A2", null))).toBe(
      `<c:numRef>${reference}${points("General", "1", "", "3")}</c:numRef>`,
    );
    expect(written("<c:strRef><c:f>&apos;sheet1&apos;!B1</c:f></c:strRef>", patch("B1", "x < y"))).toBe(
      '<c:strRef><c:f>&apos;sheet1&apos;!B1</c:f><c:strCache><c:ptCount val="1"/>' +
        '<c:pt idx="0"><c:v>x &lt; y</c:v></c:pt></c:strCache></c:strRef>',
    );
  });

  it("stay where no cell of theirs changes, and where the reference or the part cannot be read", () => {
    for (const inner of [
      `<c:numRef><c:f>Sheet1!$A$1:$A$3</c:f>${old}</c:numRef>`,
      `<c:numRef><c:f>(Sheet1!$A$1,Sheet1!$B$1)</c:f>${old}</c:numRef>`,
      `<c:numRef><c:f>Other!$B$1</c:f>${old}</c:numRef>`,
      `<c:numRef>${old}</c:numRef>`,
      "<c:numRef><c:numRef><c:f>Sheet1!$B$1</c:f>",
    ])
      expect(written(inner, patch("B1", 5))).toBe(inner);
    const broken = new Uint8Array([...strToU8("<c:numRef><c:f>Sheet1!$B$1</c:f>"), 0xff, ...strToU8("</c:numRef>")]);
    expect(chartAfter(broken, patch("B1", 5))).toEqual(broken);
  });
});
