import { describe, expect, it } from "vitest";
import { evaluateBook, openWorkbook, writeBack } from "../../../src/workbook/index";
import { verifyWorkbook } from "../../../src/workbook/verify/verify";
import { dynamicArrays, packageOf } from "../file/package";
import { sheetData } from "../graph/test-workbook";
import { issued } from "../issue-copy/issued";
import { slow } from "../../time-outs";
import { evaluation, ownSheet, put, saidOf, settings, type Cells } from "./bare";
import { directionSheet, down, figure, formula, results, up } from "./firms/pieces";
import { addIn } from "./tampered";

/** What reviewers of other workbooks were once warned of without need, one by one. */
describe("nothing is said of", { timeout: slow }, () => {
  it("a call that gives one value, stored as a plain formula", () => {
    const cells = ownSheet({}, (own) => (own["L2"] = { f: "_xldudf_STILLAIR_AIRDENSITY(B62,B64)" }));
    const plain = (xml: string) => xml.replace(/<c r="L2" cm="1"><f t="array" ref="L2">/, '<c r="L2"><f>');
    expect(plain(sheetData(cells))).not.toBe(sheetData(cells));
    expect(saidOf({ Test: cells }, plain)).toEqual([]);
  });

  it("a test during construction in one direction beside the final one in both, each with settings of its own", () => {
    const sheet = (direction: "depressurization" | "pressurization", seed: number, volume: number, more = {}) =>
      directionSheet({
        direction,
        readings: direction === "depressurization" ? down(seed, 17) : up(seed, 17),
        settings: { volume, ...more },
        typedFlows: true,
      });
    const sheets = {
      Mid: sheet("depressurization", 41, 330, { "outdoor temperature": 19 }),
      "Final D": sheet("depressurization", 42, 338),
      "Final P": sheet("pressurization", 42, 338),
    };
    expect(saidOf(sheets)).toEqual([]);
  });

  it("a word in a block of settings whose other rows are links", () => {
    const change = (own: Cells) => {
      put(own, "P1", [300, 115, 21, 8, 100_930]);
      for (let row = 60; row <= 64; row++) own[`B${row}`] = { f: `P${row - 59}` };
      own["A67"] = "reference pressure";
      own["B67"] = { f: "P8" };
      own["P8"] = 50;
    };
    expect(saidOf({ Test: ownSheet({}, change) })).toEqual([]);
  });

  it("openings named by digits, which are keys of a look-up", () => {
    const change = (own: Cells) => {
      put(own, "P1", ["0", "1", "2"]);
      put(own, "Q1", [62.4, 21.7, 8.1]);
      put(own, "R2", ["1", "1", "1", "1", "1", "1", "2", "2"]);
      for (let row = 2; row <= 9; row++) own[`S${row}`] = { f: `VLOOKUP(R${row},P$1:Q$3,2,FALSE)` };
    };
    expect(saidOf({ Test: ownSheet({}, change) })).toEqual([]);
  });

  it("the other direction's table as the last argument of a budget", () => {
    const given = "B5:B12,E5:E12,G5:G10,H5:H10,J5:K12";
    const sheet = (direction: "depressurization" | "pressurization", other: string): Cells => {
      const readings = direction === "depressurization" ? down(43, 17) : up(43, 17.5);
      const cells = directionSheet({ direction, readings, settings: { volume: 350 }, typedFlows: true });
      cells["AN2"] = formula(`STILLAIR.UNCERTAINTYBUDGET("${direction}",${given}${other})`, "AN2:AX94");
      put(cells, "C20", [{ f: "MIN(B5:B12)" }, { f: "MAX(B5:B12)" }, { f: "MAX(E5:E12)" }, { f: "AVERAGE(G5:G10)" }]);
      put(cells, "D20", [{ f: "MIN(E5:E12)" }, { f: "AVERAGE(H5:H10)" }, { f: "COUNT(B5:B12)" }, { f: "B5-G5" }]);
      put(cells, "E20", [{ f: figure("n", results) }, { f: figure("q50", results) }, { f: figure("n50", results) }]);
      return cells;
    };
    const sheets = {
      "Final D": sheet("depressurization", ""),
      "Final P": sheet("pressurization", ",,'Final D'!AN2:AX94"),
    };
    expect(saidOf(sheets)).toEqual([]);
  });

  it("a small baseline that the wind turned while the house was tested", () => {
    const change = (own: Cells) => {
      put(own, "G3", [-0.9, -0.4, -0.7, -0.6, -0.5]);
      put(own, "H3", [0.4, 0.8, 0.6, 0.9, 0.5]);
    };
    expect(saidOf({ Test: ownSheet({}, change) })).toEqual([]);
    const clear = (own: Cells) => {
      put(own, "G3", [-2.1, -1.8, -2.4, -2.2, -1.9]);
      put(own, "H3", [2.0, 2.3, 1.8, 2.2, 2.1]);
    };
    expect(saidOf({ Test: ownSheet({}, clear) })).toContainEqual(
      expect.stringMatching(/^warning: sign of the baseline in Test!H3:H7/),
    );
  });

  it("readings that a formula marks by the reach of the device, with the reason beside the mark", () => {
    const reason = (row: number) => `IF(B${row}>255,"beyond the certificate","")`;
    expect(saidOf({ Test: ownSheet({}, markedByFormulas(reason)) })).toEqual([]);
    const remark = () => '"wind from west"';
    expect(saidOf({ Test: ownSheet({}, markedByFormulas(remark)) })).toEqual([
      expect.stringMatching(/^warning: excluded without a reason in Test!C2/),
    ]);
  });

  it("a list of other houses, typed with their verdicts, unless one of them is the house of this test", () => {
    const judge = (own: Cells) => {
      put(own, "A48", ["house", "Plot 9"], "across");
      put(own, "A52", ["limit", 0.6], "across");
      own["B53"] = { f: 'IF(COUNTIF(AF44:AF118,"not met")>90,"not valid","valid")' };
      own["B54"] = { f: "_xldudf_STILLAIR_PASSFAIL(B50,B52,,,,B53)" };
    };
    const archive = (name: string): Cells => {
      const cells: Cells = {};
      put(cells, "A1", ["house", "n50", "limit", "verdict"], "across");
      put(cells, "A2", [name, 0.69, 0.8, "pass"], "across");
      put(cells, "A3", ["Plot 4", 0.42, 0.6, "pass"], "across");
      return cells;
    };
    expect(saidOf({ Test: ownSheet({}, judge), Archive: archive("Plot 3") })).toEqual([]);
    const said = saidOf({ Test: ownSheet({}, judge), Archive: archive("Plot 9") });
    expect(said).toContainEqual(expect.stringMatching(/^warning: result typed in in Archive!B2/));
    expect(said).toContainEqual(expect.stringMatching(/^warning: verdict misreported in Archive!D2/));
  });

  it("the missing protection of a workbook that never had any, once a copy of it is issued", () => {
    const made = openWorkbook(
      packageOf({ sheets: [sheetData(ownSheet())], sheetNames: ["Test"], metadata: dynamicArrays }),
    );
    const changes = evaluateBook(made.book, { addIn }).cells.flatMap(({ sheet, row, column, outcome }) =>
      outcome.evaluated ? [{ sheet, row, column, value: outcome.value }] : [],
    );
    const { opened } = issued(writeBack(made, changes));
    const { findings } = verifyWorkbook(opened, addIn, new Date("2026-11-02T09:00:00Z"));
    expect(findings.filter(({ severity }) => severity !== "note")).toEqual([]);
    expect(findings).toContainEqual(expect.objectContaining({ kind: "issue copy", severity: "note" }));
  });
});

/** Counts the readings of the depressurization up to 255 m³/h, by a formula in each row, with a remark by another one. */
const markedByFormulas = (remark: (row: number) => string) => (own: Cells) => {
  put(own, "C1", ["counts"]);
  put(own, "F1", ["remark"]);
  for (let row = 2; row <= 9; row++) {
    own[`C${row}`] = { f: `IF(B${row}<=255,"yes","no")` };
    own[`F${row}`] = { f: remark(row) };
  }
  const range = settings(own);
  evaluation(own, `A2:A9,B2:B9,G3:G7,H3:H7,${range},C2:C9`, `D2:D9,E2:E9,I3:I7,J3:J7,${range}`);
};

it("a verdict that takes the checks of one direction only is told which", { timeout: slow }, () => {
  const change = (own: Cells) => {
    put(own, "A52", ["limit", 1], "across");
    own["B54"] = { f: "_xldudf_STILLAIR_PASSFAIL(B50,B52,,,,B53)" };
    own["B53"] = { f: 'IF(COUNTIF(AF44:AF78,"not met")>90,"not valid","valid")' };
  };
  const said = saidOf({ Test: ownSheet({}, change) });
  expect(said).toContainEqual(
    expect.stringMatching(
      /^warning: verdict without validity in Test!B54: .*depressurization in Test!A2:A9 alone, but its result also comes from pressurization in Test!D2:D9/,
    ),
  );
});

it("runs left over from another house are found by their difference", { timeout: slow }, () => {
  const sheet = (direction: "depressurization" | "pressurization", seed: number, c: number) =>
    directionSheet({
      direction,
      readings: direction === "depressurization" ? down(seed, c) : up(seed, c),
      settings: { volume: 350 },
      typedFlows: true,
    });
  const sheets = {
    "Depressurization 1": sheet("depressurization", 51, 20),
    "Depressurization 2": sheet("depressurization", 52, 14),
    "Pressurization 1": sheet("pressurization", 51, 20.5),
  };
  expect(saidOf(sheets)).toContainEqual(
    expect.stringMatching(
      /^warning: runs differ in 'Depressurization \d'!B5:B12: Two runs of depressurization differ by/,
    ),
  );
});

it("a quotation to the right of a limit is read beside a label with its unit", { timeout: slow }, () => {
  const change = (own: Cells) => {
    put(own, "A52", ["n50 limit, 1/h", 0.8, "Passive House: n50 ≤ 0.6 1/h"], "across");
    own["B53"] = { f: 'IF(COUNTIF(AF44:AF118,"not met")>90,"not valid","valid")' };
    own["B54"] = { f: "_xldudf_STILLAIR_PASSFAIL(B50,B52,,,,B53)" };
  };
  expect(saidOf({ Test: ownSheet({}, change) })).toContainEqual(
    expect.stringMatching(/^warning: limit changed in Test!B52: .*quotes 0\.6/),
  );
});

describe("a limit of another quantity, by its unit or by its label", { timeout: slow }, () => {
  it.each([
    ["limit of the programme", "m³/(h·m²)", true],
    ["limit of the programme", "1/h", false],
    ["limit n25", "1/h", true],
    ["limit at 25 Pa", "1/h", true],
    ["limit q50", "", true],
    ["limit n50", "1/h", false],
    ["limit ACH50 at 50 Pa", "", false],
  ])("%s, %s beside n50: %s", (label, unit, isFound) => {
    const change = (own: Cells) => {
      put(own, "A52", [label, 1, unit], "across");
      own["B53"] = { f: 'IF(COUNTIF(AF44:AF118,"not met")>90,"not valid","valid")' };
      own["B54"] = { f: "_xldudf_STILLAIR_PASSFAIL(B50,B52,,,,B53)" };
    };
    const said = saidOf({ Test: ownSheet({ "envelope area": 281 }, change) });
    const found = said.filter((line) => line.startsWith("warning: limit of another quantity in Test!B52"));
    expect(found.length > 0).toBe(isFound);
  });
});
