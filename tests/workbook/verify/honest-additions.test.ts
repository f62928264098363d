import { describe, expect, it } from "vitest";
import { verifyWorkbook } from "../../../src/workbook/verify/verify";
import { stored } from "../../samples/workbook";
import { slow } from "../../time-outs";
import { addIn, Tampered } from "./tampered";

const day = new Date("2026-11-02T09:00:00Z");

/** What the review says of a copy of the sample workbook, notes aside. */
function saidAfter(change: (workbook: Tampered) => void): string[] {
  const workbook = new Tampered(stored);
  change(workbook);
  const { findings } = verifyWorkbook(workbook.open(), addIn, day);
  return findings
    .filter(({ severity }) => severity !== "note")
    .map(({ kind, place, what }) => `${kind} in ${place}: ${what}`);
}

describe("what an honest tester adds to a workbook gives no warning", { timeout: slow }, () => {
  it("two readings excluded for the same reason, with a reading between them", () => {
    const said = saidAfter((workbook) => {
      for (const row of [25, 27]) {
        workbook.put(["Depressurization", `C${row}`], "no");
        workbook.put(["Depressurization", `U${row}`], "gust");
      }
    });
    expect(said).toEqual([]);
  });

  it("a column of times beside the readings of one run", () => {
    const said = saidAfter((workbook) => {
      for (let row = 24; row <= 33; row++) {
        workbook.put(["Depressurization", `AH${row}`], 0.58 + (row - 24) / 1000);
        workbook.put(["Depressurization", `AI${row}`], `=(AH${row}-AH$24)*1440`);
      }
    });
    expect(said).toEqual([]);
  });

  it("sheets of their own with a letter and with hours of work, which nobody protected", () => {
    const said = saidAfter((workbook) => {
      workbook.addSheet("Letter", { A1: "Dear owners,", A2: '="the verdict is: "&Results!F45' });
      workbook.addSheet("Hours", { A1: "Hours on site", A2: 3.5, A3: 1.25, A4: "=SUM(A2:A3)" });
    });
    expect(said).toEqual([]);
  });

  it.each(["fail", "nicht bestanden"])("an archive of a test that failed before: %s", (word) => {
    const said = saidAfter((workbook) =>
      workbook.addSheet("Archive", { A1: "Test of 12 August, before the duct was sealed", A2: "Verdict", B2: word }),
    );
    expect(said).toEqual([]);
  });

  it("a letter that repeats the verdict as text", () => {
    const said = saidAfter((workbook) =>
      workbook.addSheet("Letter", { A1: "Dear owners,", A2: "Verdict", B2: "pass" }),
    );
    expect(said).toEqual([]);
  });
});

describe("what looks like it and is not is reported", { timeout: slow }, () => {
  it("a reading excluded with no reason, below one that has one", () => {
    const said = saidAfter((workbook) => {
      for (const row of [25, 27]) workbook.put(["Depressurization", `C${row}`], "no");
      workbook.put(["Depressurization", "U25"], "gust");
    });
    expect(said).toEqual([expect.stringMatching(/^excluded without a reason in Depressurization!C27/)]);
  });

  it("readings excluded with a reason, without which the house fails", () => {
    const said = saidAfter((workbook) => {
      workbook.put(["Firm", "D25"], 15.25);
      for (const [sheet, row, fanPressure] of [
        ["Depressurization", 24, 290],
        ["Depressurization", 26, 254],
        ["Depressurization", 28, 184],
        ["Pressurization", 24, 228],
        ["Pressurization", 27, 156],
      ] as const) {
        workbook.put([sheet, `C${row}`], "no");
        workbook.put([sheet, `U${row}`], "gust");
        workbook.put([sheet, `F${row}`], fanPressure);
      }
    });
    expect(said.join("\n")).toMatch(/excluded reading in .*would give "fail" instead of a pass/);
  });

  it("a formula deleted below a heading that both sheets have", () => {
    const said = saidAfter((workbook) => workbook.put(["Depressurization", "N27"], null));
    expect(said.join("\n")).toMatch(/formula missing in Depressurization!N27/);
  });

  it("an added sheet without protection that a verdict depends on", () => {
    const said = saidAfter((workbook) => {
      workbook.addSheet("Aux", { A1: "factor", B1: "=2/2" });
      workbook.reformulate(["Results", "F38"], (text) => `${text}*Aux!B1`);
    });
    expect(said.join("\n")).toMatch(/protection removed in the sheet Aux/);
  });
});
