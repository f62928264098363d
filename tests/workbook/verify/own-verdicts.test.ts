import { describe, expect, it } from "vitest";
import { evaluation, house, ownSheet, put, saidOf, settings, shownIn, type Cells } from "./bare";
import { slow } from "../../time-outs";

/** The outcomes of both tables of checks in one word. */
const checks = { f: 'IF(COUNTIF(AF40:AF74,"not met")+COUNTIF(AF80:AF114,"not met")>0,"not valid","valid")' };
const verdict = (call: string) => ({ f: call.replaceAll("PASSFAIL", "_xldudf_STILLAIR_PASSFAIL") });

/** The firm's own sheet with a limit, a verdict and its words; the mean n50 of the invented house is 0.76 1/h. */
const judged = (call: string, more: Cells = {}, limit = 1) =>
  ownSheet({}, (cells) => {
    put(cells, "A52", ["limit of the programme", limit], "across");
    put(cells, "A53", ["checks", checks], "across");
    put(cells, "A54", ["verdict", verdict(call)], "across");
    Object.assign(cells, more);
  });

const plain = "PASSFAIL(B50,B52,,,,B53)";

describe("a firm's own sheet with a verdict: nothing is said of", { timeout: slow }, () => {
  it.each([
    ["the plain call", plain, {}],
    ["parts named by LET", `_xlfn.LET(_xlpm.r,B50,_xlpm.l,B52,${plain.replace("B50,B52", "_xlpm.r,_xlpm.l")})`, {}],
    ["a guard against a blank result", `IF(B50="","",${plain})`, {}],
    ["a limit converted inside the call", "PASSFAIL(B50,B52/3.6,,,,B53)", { B52: 3.6 }],
    ["a margin against the house", "PASSFAIL(B50*1.02,B52,,,,B53)", {}],
    ["a comparison beside it as a control", plain, { D54: { f: 'IF(B50<=B52,"pass","fail")' } }],
    ["a cover that repeats it in a sentence", plain, { B56: { f: '"The house "&IF(B54="pass","passes","fails")' } }],
  ] satisfies [string, string, Cells][])("%s", (_, call, more) => {
    const said = saidOf({ Test: judged(call, more) });
    // A margin is a figure in a formula all the same.
    expect(said.filter((line) => !line.includes("1.02"))).toEqual([]);
  });
});

describe("a fail by right that was turned is found", { timeout: slow }, () => {
  it.each([
    [
      "a sentence on the cover",
      plain,
      { B56: { f: 'IF(B54="","","The house passes")' } },
      /^error: verdict misreported in Test!B56/,
    ],
    [
      "a pass in place of an error",
      `IFERROR(${plain.replace("B52", "B57")},"pass")`,
      { B57: "none" },
      /^error: verdict misreported in Test!B54/,
    ],
    [
      "a smaller result under a name",
      `_xlfn.LET(_xlpm.r,B50*0.6,${plain.replace("B50", "_xlpm.r")})`,
      {},
      /^warning: result altered in Test!B54/,
    ],
    [
      "readings left out of a second computation alone",
      plain.replace("B50", "B51"),
      fewerReadings(),
      /^warning: excluded without a reason in Test!C3/,
    ],
    [
      "another volume for the same readings",
      plain.replace("B50", "B51"),
      secondVolume(),
      /^warning: settings differ in Test!E60/,
    ],
  ] satisfies [string, string, Cells, RegExp][])("%s", (_, call, more, pattern) => {
    expect(saidOf({ Test: judged(call, more, 0.5) })).toContainEqual(expect.stringMatching(pattern));
  });
});

/** The depressurization computed a second time, two of its readings left out, for the verdict alone. */
function fewerReadings(): Cells {
  const cells: Cells = {};
  put(cells, "C2", ["yes", "no", "no", "yes", "yes", "yes", "yes", "yes"]);
  const call = '_xldudf_STILLAIR_TESTRESULT("depressurization",A2:A9,B2:B9,G3:G7,H3:H7,A60:B66,C2:C9)';
  cells["AQ2"] = { f: call, ref: "AQ2:AW39" };
  cells["B51"] = { f: 'INDEX(AS2:AS39,MATCH("n50",AR2:AR39,0))' };
  return cells;
}

/** The depressurization computed a second time, with twice the volume, for the verdict alone. */
function secondVolume(): Cells {
  const cells: Cells = {};
  const labels: Cells = {};
  settings(labels, { volume: 600 });
  for (const [address, value] of Object.entries(labels)) cells[address.replace("A", "D").replace("B", "E")] = value;
  cells["AQ2"] = {
    f: '_xldudf_STILLAIR_TESTRESULT("depressurization",A2:A9,B2:B9,G3:G7,H3:H7,D60:E66)',
    ref: "AQ2:AW39",
  };
  cells["B51"] = { f: 'INDEX(AS2:AS39,MATCH("n50",AR2:AR39,0))' };
  return cells;
}

describe("one direction alone, with its checks and a verdict", { timeout: slow }, () => {
  const oneWay = (call = "PASSFAIL(B50,B52,,,,B53)", change: (cells: Cells) => void = () => {}, limit = 1): Cells => {
    const cells: Cells = { A1: "building Pa", B1: "flow m³/h" };
    put(cells, "A2", house.down);
    put(cells, "B2", house.flowsDown);
    put(cells, "G3", house.before);
    put(cells, "H3", house.after);
    const given = `A2:A9,B2:B9,G3:G7,H3:H7,${settings(cells)}`;
    cells["AA2"] = { f: `_xldudf_STILLAIR_TESTRESULT("depressurization",${given})`, ref: "AA2:AG42" };
    cells["AA44"] = { f: `_xldudf_STILLAIR_VALIDITYCHECKS("depressurization",${given})`, ref: "AA44:AI78" };
    put(
      cells,
      "A50",
      ["n50", { f: '_xldudf_STILLAIR_AVERAGEDRESULT(INDEX(AC2:AC39,MATCH("n50",AB2:AB39,0)),"","accept")' }],
      "across",
    );
    put(cells, "A52", ["limit of the programme", limit], "across");
    put(cells, "A53", ["checks", checks], "across");
    put(cells, "A54", ["verdict", verdict(call)], "across");
    change(cells);
    return cells;
  };

  it("is recomputed, and nothing is said of it", () => expect(saidOf({ Test: oneWay() })).toEqual([]));

  it("a verdict without its checks, an altered result and a lost sign are found", () => {
    expect(saidOf({ Test: oneWay("PASSFAIL(B50,B52)") })).toContainEqual(
      expect.stringMatching(/^warning: verdict without validity in Test!B54/),
    );
    expect(
      saidOf({
        Test: oneWay(undefined, (cells) => (cells["B50"] = { f: 'INDEX(AC2:AC39,MATCH("n50",AB2:AB39,0))-0.05' })),
      }),
    ).toContainEqual(expect.stringMatching(/^warning: result altered in Test!B50/));
    expect(saidOf({ Test: oneWay(undefined, (cells) => (cells["A5"] = 40.6)) })).toContainEqual(
      expect.stringMatching(/^error: sign of the readings in Test!A5/),
    );
  });

  it("four readings under a verdict that asks no checks are no valid test", () => {
    const few = (cells: Cells) =>
      ["A6", "A7", "A8", "A9", "B6", "B7", "B8", "B9"].forEach((cell) => delete cells[cell]);
    expect(saidOf({ Test: oneWay("PASSFAIL(B50,B52)", few) })).toContainEqual(
      expect.stringMatching(/^error: verdict on an invalid test in Test!B54/),
    );
  });
});

describe("the mean of both directions", { timeout: slow }, () => {
  const [down, up] = ["AA44:AI78", "AA84:AI118"];
  const day = {
    "test date": 46000,
    "gauge certificate valid until": 46100,
    "flow device certificate valid until": 46100,
  };
  const meanJudged = (call: string, change: (cells: Cells) => void = () => {}) =>
    ownSheet(day, (cells) => {
      const range = "A60:B69";
      evaluation(cells, `A2:A9,B2:B9,G3:G7,H3:H7,${range}`, `D2:D9,E2:E9,I3:I7,J3:J7,${range}`);
      put(cells, "A52", ["limit of the programme", 1], "across");
      put(cells, "A54", ["verdict", verdict(call)], "across");
      change(cells);
    });

  it("is judged with the checks of both, as two arguments", () =>
    expect(saidOf({ Test: meanJudged(`PASSFAIL(B50,B52,,,,${down},${up})`) })).toEqual([]));

  it.each([
    ["depressurization", `PASSFAIL(B50,B52,,,,${down},,"depressurization")`, "A2:A9", "pressurization in Test!D2"],
    ["pressurization", `PASSFAIL(B50,B52,,,,${up},,"pressurization")`, "D2:D9", "depressurization in Test!A2"],
  ])("is not judged by the checks of %s alone", (direction, call, covered, left) => {
    const said = `the validity of ${direction} in Test!${covered} alone, but its result also comes from ${left}`;
    expect(saidOf({ Test: meanJudged(call) })).toContainEqual(
      expect.stringMatching(`^warning: verdict without validity in Test!B54.*${said}`),
    );
  });

  it("is open while one direction has no checks, and not valid by the baseline of the other", () => {
    const [both, one] = [`PASSFAIL(B50,B52,,,,${down},${up})`, `PASSFAIL(B50,B52,,,,${down})`];
    // Three readings of −9 Pa before pressurization and three after it.
    const disturbed = (cells: Cells) => {
      for (const column of ["I", "J"]) put(cells, `${column}3`, [-9, -9, -9, "", ""]);
    };
    expect(shownIn(meanJudged(both), "B54")).toBe("pass");
    expect(shownIn(meanJudged(one), "B54")).toMatch(/^#N\/A .*no checks of pressurization/);
    expect(shownIn(meanJudged(both, disturbed), "B54")).toBe("not valid");
    expect(shownIn(meanJudged(one, disturbed), "B54")).toMatch(/^#N\/A .*no checks of pressurization/);
  });
});

describe("words of the functions in other letters", { timeout: slow }, () => {
  const spelled = (cells: Cells) => {
    for (const [address, cell] of Object.entries(cells))
      if (typeof cell === "object")
        cells[address] = { ...cell, f: cell.f.replace('"depressurization"', '"Depressurisation"') };
  };

  it("are understood: an honest sheet is left alone, a lost sign is found", () => {
    expect(saidOf({ Test: ownSheet({ units: "si", "flow basis": "Actual at the fan" }, spelled) })).toEqual([]);
    const turned = (cells: Cells) => {
      spelled(cells);
      cells["A5"] = 40.6;
    };
    expect(saidOf({ Test: ownSheet({}, turned) })).toContainEqual(
      expect.stringMatching(/^error: sign of the readings in Test!A5/),
    );
    const magnitudes = (cells: Cells) => {
      for (const row of [2, 3, 4, 5, 6, 7, 8, 9]) cells[`A${row}`] = Math.abs(Number(cells[`A${row}`]));
      for (const row of [3, 4, 5, 6, 7]) for (const column of "GHIJ") cells[`${column}${row}`] = 0.4 + row / 10;
    };
    const said = saidOf({ Test: ownSheet({ "pressure sign": "Magnitude" }, magnitudes) });
    expect(said.filter((line) => line.includes("sign of the readings"))).toEqual([]);
  });
});
