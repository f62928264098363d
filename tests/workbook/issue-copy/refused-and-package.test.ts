import { unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { methodVersion } from "../../../src/core/index";
import { dynamicArrays, packageOf, strict } from "../file/package";
import { issue, issued } from "./issued";
import { call, rows, house, text } from "./house";

describe("no copy is issued", () => {
  it("where a stored value is not what the formula gives", () => {
    expect(issue(house({}, "0.55"))).toEqual({ reason: "stored values differ", cells: ["House!B3"] });
  });

  it("where a cell cannot be evaluated, unless it may keep its stored value", () => {
    const odd = (formula: string) =>
      house({
        sheets: [
          rows(
            call("A1", "_xldudf_STILLAIR_METHODVERSION()", methodVersion).replace('s="1"', 't="str"'),
            `<c r="B2"><f>${formula}</f><v>7</v></c>`,
          ),
        ],
      });
    expect(issue(odd("NOSUCHFUNCTION(1)"))).toMatchObject({ reason: "not evaluated" });
    expect(issued(odd("NOSUCHFUNCTION(1)"), { keepOldValues: true }).mark.formulas).toHaveLength(1);
    const foreign = issued(odd("_xldudf_OTHER_THING(1)"), { keepOldValues: true });
    expect(foreign.mark.formulas.map(({ formula }) => formula)).toContain("=OTHER.THING(1)");
  });

  it("where the stored value is #NAME?, which would stay, even if old values are kept", () => {
    const nameless = house({ sheets: [rows('<c r="B1" t="e"><f>_xldudf_OTHER_THING(1)</f><v>#NAME?</v></c>')] });
    expect(issue(nameless, { keepOldValues: true })).toEqual({ reason: "shows #NAME?", cells: ["House!B1"] });
  });

  it("of an issue copy, or of a workbook without the add-in", () => {
    expect(issue(issued(house()).bytes)).toMatchObject({ reason: "already issued" });
    expect(issue(packageOf({ sheets: [rows('<c r="A1"><v>1</v></c>')] }))).toMatchObject({
      reason: "nothing to freeze",
    });
  });
});

describe("the package", () => {
  it("keeps the protection of the workbook's structure, and leaves the calculation chain to Excel", () => {
    const chain =
      '<calcChain xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><c r="B3" i="1"/><c r="B4" i="1"/></calcChain>';
    const plain = unzipSync(house({ workbookStart: '<workbookProtection lockStructure="1"/>' }));
    const rels = new TextDecoder().decode(plain["xl/_rels/workbook.xml.rels"]);
    const types = new TextDecoder().decode(plain["[Content_Types].xml"]);
    const encode = (words: string) => new TextEncoder().encode(words);
    const withChain = house({
      workbookStart: '<workbookProtection lockStructure="1"/>',
      parts: {
        "xl/calcChain.xml": encode(chain),
        "xl/_rels/workbook.xml.rels": encode(
          rels.replace(
            "</Relationships>",
            '<Relationship Id="c" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/calcChain" Target="calcChain.xml"/></Relationships>',
          ),
        ),
        "[Content_Types].xml": encode(
          types.replace(
            "</Types>",
            '<Override PartName="/xl/calcChain.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.calcChain+xml"/></Types>',
          ),
        ),
      },
    });
    const parts = unzipSync(issued(withChain).bytes);
    expect(Object.keys(parts)).not.toContain("xl/calcChain.xml");
    expect(new TextDecoder().decode(parts["xl/_rels/workbook.xml.rels"])).not.toContain("calcChain");
    expect(new TextDecoder().decode(parts["[Content_Types].xml"])).not.toContain("calcChain");
    expect(new TextDecoder().decode(parts["xl/workbook.xml"])).toContain('<workbookProtection lockStructure="1"/>');
  });

  it("may be strict, or have no styles, names or collections of styles", () => {
    for (const more of [
      { words: strict },
      { styles: "" },
      { styles: "<fonts/><cellXfs/>" },
      { workbook: "<definedNames/>" },
    ]) {
      const { opened, mark } = issued(house(more));
      expect(opened.book.sheets.map(({ name }) => name)).toEqual(["House", "Frozen formulas"]);
      expect(mark.formulas).toHaveLength(1);
    }
    const without = packageOf({
      sheets: [rows(call("B1", "_xldudf_STILLAIR_LEAKAGEFLOW(2,1,50)", "100").replace(' s="1"', ""))],
      metadata: dynamicArrays,
    });
    expect(text(issued(without).bytes, "xl/styles.xml")).toContain("<cellXfs");
  });

  it("names the new sheet in the document's properties, behind the other sheets and before the names", () => {
    const properties = (titles: string, count = 1) =>
      '<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties" xmlns:vt="http://schemas.openxmlformats.org/officeDocument/2006/docPropsVTypes">' +
      `<HeadingPairs><vt:vector size="4" baseType="variant"><vt:variant><vt:lpstr>Arbeitsblätter</vt:lpstr></vt:variant><vt:variant><vt:i4>${count}</vt:i4></vt:variant>` +
      "<vt:variant><vt:lpstr>Benannte Bereiche</vt:lpstr></vt:variant><vt:variant><vt:i4>1</vt:i4></vt:variant></vt:vector></HeadingPairs>" +
      `<TitlesOfParts><vt:vector size="2" baseType="lpstr">${titles}</vt:vector></TitlesOfParts></Properties>`;
    const withProperties = (content: string) => {
      const plain = unzipSync(house());
      const rels = new TextDecoder().decode(plain["_rels/.rels"]);
      const link =
        '<Relationship Id="p" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/extended-properties" Target="docProps/app.xml"/></Relationships>';
      const encode = (words: string) => new TextEncoder().encode(words);
      const parts = {
        "docProps/app.xml": encode(content),
        "_rels/.rels": encode(rels.replace("</Relationships>", link)),
      };
      return text(issued(house({ parts })).bytes, "docProps/app.xml");
    };
    const fitting = "<vt:lpstr>House</vt:lpstr><vt:lpstr>Limit</vt:lpstr>";
    const after = withProperties(properties(fitting));
    expect(after).toContain("<vt:i4>2</vt:i4>");
    expect(after).toContain(
      '<vt:vector size="3" baseType="lpstr"><vt:lpstr>House</vt:lpstr><vt:lpstr>Frozen formulas</vt:lpstr><vt:lpstr>Limit</vt:lpstr></vt:vector>',
    );
    for (const odd of [properties(fitting.replace("House", "Other")), properties(fitting, 2), "<Properties/>"])
      expect(withProperties(odd)).toBe(odd);
  });

  it("takes another name where a sheet has it already", () => {
    expect(issued(house({ sheetNames: ["frozen FORMULAS"] })).sheetName).toBe("Frozen formulas 2");
  });
});
