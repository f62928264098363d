import { readFileSync } from "node:fs";
import { strToU8, unzipSync, zipSync } from "fflate";
import { beforeAll, describe, expect, it } from "vitest";
import { Desk } from "../../src/views/desk/desk";
import { slow } from "../time-outs";

const desk = new Desk();
const finalTest = readFileSync("sample-workbooks/final-test.xlsx");

describe("copies of an issue copy", { timeout: slow }, () => {
  beforeAll(() => {
    desk.open(1, "final-test.xlsx", finalTest);
    desk.open(2, "issued.xlsx", desk.makeIssueCopy(1).bytes as Uint8Array);
    desk.close(1);
  }, slow);

  it("are refused with changes, since they would keep its frozen results and its mark", () => {
    const day = desk.listInputs(2).find(({ address }) => address === "Cover!G6")!;
    const change = [{ ...day, text: "1 January 2031" }];
    expect(desk.tryOut(2, change).verdicts).toEqual([expect.objectContaining({ before: "pass", after: "not valid" })]);
    expect(() => desk.makeChangedCopy(2, change)).toThrow(/^this is an issue copy: a changed copy would keep/);
  });

  it("are made where nothing is changed", () => {
    expect(desk.makeChangedCopy(2, []).name).toBe("issued (recalculated).xlsx");
  });
});

describe("copies of a workbook with macros", { timeout: slow }, () => {
  beforeAll(() => {
    const parts = unzipSync(finalTest);
    const types = new TextDecoder()
      .decode(parts["[Content_Types].xml"])
      .replace(
        "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml",
        "application/vnd.ms-excel.sheet.macroEnabled.main+xml",
      );
    const bytes = zipSync({ ...parts, "[Content_Types].xml": strToU8(types) });
    desk.open(3, "job.xlsm", bytes);
  }, slow);

  it("keep its ending and say so to the browser", () => {
    for (const { name, type } of [desk.makeChangedCopy(3, []), desk.makeIssueCopy(3)]) {
      expect(name).toMatch(/^job \((recalculated|issued)\)\.xlsm$/);
      expect(type).toBe("application/vnd.ms-excel.sheet.macroEnabled.12");
    }
  });
});
