import { describe, expect, it } from "vitest";
import "./look-up";
import {
  acceptOne,
  cell,
  check,
  condition,
  filled,
  panelOnCover,
  shownOnCover,
  summary,
  typed,
  without,
} from "./typed";

const iecc = { "Criteria!C6": "IECC 2021, zones 3 to 8", "Rooms!E28": "whole internal" };
describe("slips in the rooms", () => {
  it("do not give a verdict when rooms are typed in millimetres", () => {
    const test = typed({ "Rooms!D7": 6350, "Rooms!E7": 4950 });
    expect(condition(test, "Rooms half filled")[2]).toBe("not met");
    expect(condition(test, "Outlines that the rooms fill")[2]).toBe("not met");
    expect(summary(test, "Verdict")).toBe("not valid");
  });

  it("do not give a verdict when a length is so long that the rooms leave their outline", () => {
    const test = typed({ "Rooms!D7": 9.35 });
    expect(condition(test, "Rooms half filled")).toEqual([0, null, "met"]);
    expect(condition(test, "Outlines that the rooms fill")[2]).toBe("not met");
    expect(summary(test, "Verdict")).toBe("not valid");
  });

  it.each([
    ["a height of 26 m", { "Rooms!G7": 26 }],
    ["a height as text", { "Rooms!G7": "2.6 m" }],
    ["a room whose numbers are all text", { "Rooms!D7": "6.35 m", "Rooms!E7": "4.95 m", "Rooms!G7": "2.6 m" }],
    ["a room without a storey", { "Rooms!C7": null }],
    ["a room without numbers", { "Rooms!B22": "Attic" }],
  ])("do not give a verdict for %s", (_, change) => {
    const test = typed(change);
    expect(condition(test, "Rooms half filled")).toEqual([1, null, "not met"]);
    expect(["not valid", "open"]).toContain(summary(test, "Verdict"));
    expect(shownOnCover(test)).not.toBe("PASS");
  });

  it.each([
    ["a length as text", { "Rooms!D8": "3.95 m" }],
    ["a length that is missing", { "Rooms!D8": null }],
    ["a width of 0", { "Rooms!E8": 0 }],
    ["a width below 0", { "Rooms!E8": -4.95 }],
    ["a height that is missing", { "Rooms!G8": null }],
    ["a height below 0", { "Rooms!G8": -2.6 }],
  ])("leave no volume and no result for %s, and name the room", (_, change) => {
    const test = typed(change);
    for (const label of ["Internal volume", "Air change rate n50, mean", "Result that decides"])
      expect(summary(test, label)).toMatchObject({ code: "#N/A" });
    // A floor area needs no height.
    const floor = summary(test, "Floor area");
    if ("Rooms!G8" in change) expect(floor).toBe(summary(typed({}), "Floor area"));
    else expect(floor).toMatchObject({ code: "#N/A" });
    expect(cell(test, "Rooms!H25")).toMatchObject({ code: "#N/A" });
    expect(cell(test, "Rooms!B26")).toBe(
      `Not added: ${cell(typed({}), "Rooms!B8") as string}, where a length, a width above 0 or a height above 0 is missing`,
    );
    expect(condition(test, "Rooms half filled")).toEqual([1, null, "not met"]);
    expect(condition(test, "Volume and outlines once more")[2]).toBe("not met");
    // The flow needs no volume.
    expect(summary(test, "Air leakage rate q50, mean")).toBe(summary(typed({}), "Air leakage rate q50, mean"));
    expect(panelOnCover(test)).not.toContain("shows an error");
  });

  it("name a room without a name by its row", () => {
    expect(cell(typed({ "Rooms!B22": null, "Rooms!G22": 2.5 }), "Rooms!B26")).toMatch(/^Not added: row 22, where/);
    expect(cell(typed({}), "Rooms!B26")).toBe("");
  });

  it("still deduct a part whose length is below zero", () => {
    const [whole, without] = [typed({}), typed(filled("Rooms", "BCDEG", [9, 9]))];
    expect(cell(whole, "Rooms!H9")).toBeCloseToRelative(-0.6 * 0.45 * 2.6);
    expect((summary(whole, "Internal volume") as number) - (summary(without, "Internal volume") as number)).toBeCloseTo(
      -0.702,
      9,
    );
  });

  it.each([
    ["a corner as text", { "Rooms!C39": "10.6 m" }],
    ["half a corner", { "Rooms!D39": null }],
    ["a gap between corners", { "Rooms!C39": null, "Rooms!D39": null }],
  ])("leave no envelope area for %s", (_, change) => {
    const test = typed(change);
    expect(cell(test, "Rooms!E46")).toMatchObject({ code: "#N/A" });
    expect(summary(test, "Envelope area")).toMatchObject({ code: "#N/A" });
    expect(summary(test, "Verdict")).toBe("not valid");
  });

  it("are looked into when the rooms fill little of their outline, or a mean height is odd", () => {
    const test = typed(filled("Rooms", "G", [7, 20], 4.3));
    expect(condition(test, "Mean clear height")[2]).toBe("look into it");
    const little = typed({ "Rooms!D7": 0.8 });
    expect(condition(little, "Rooms fill enough")[2]).toBe("look into it");
    expect(summary(little, "Conditions for a verdict")).toBe("met; 1 to look into");
    expect(panelOnCover(little)).toContain("met; 1 to look into");
  });

  it("are looked into when partitions are out of a volume that is said to be whole", () => {
    const test = typed(iecc);
    expect(condition(test, "Rooms fill enough").slice(1)).toEqual(["partitions out?", "look into it"]);
    expect(summary(test, "Verdict")).toBe("pass");
  });
});

describe("storeys", () => {
  it("of a bungalow: a blank second outline is skipped", () => {
    const test = typed({
      ...filled("Rooms", "FG", [38, 45]),
      ...filled("Rooms", "BCDEG", [15, 20]),
      "Rooms!F69": null,
    });
    expect(condition(test, "Outlines that the rooms fill")[2]).toBe("met");
    expect(summary(test, "Envelope area")).toBeCloseToRelative(2 * 78.16 + 38 * 2.92);
  });

  it("of three storeys: the third one's walls and a further part count", () => {
    const corners = [
      [0, 0],
      [10.6, 0],
      [10.6, 8.4],
      [0, 8.4],
    ] as const;
    const outline = corners.flatMap(([x, y], index) => [
      [`Rooms!C${51 + index}`, x],
      [`Rooms!D${51 + index}`, y],
    ]);
    const room = { "Rooms!B21": "Loft", "Rooms!C21": "top", "Rooms!D21": 10, "Rooms!E21": 8, "Rooms!G21": 2.4 };
    const test = typed({
      ...(Object.fromEntries(outline) as Record<string, number>),
      ...room,
      "Rooms!F70": 2.4,
      "Rooms!B72": "Dormer",
      "Rooms!H72": 3,
    });
    expect(summary(test, "Envelope area")).toBeCloseToRelative(78.16 + 38 * (2.92 + 2.45) + 38 * 2.4 + 10.6 * 8.4 + 3);
    expect(condition(test, "Outlines that the rooms fill")[2]).toBe("met");
  });

  it("with rooms but without an outline leave the test open", () => {
    const test = typed(filled("Rooms", "FG", [38, 45]));
    expect(condition(test, "Outlines that the rooms fill")[2]).toBe("open");
    expect(summary(test, "Verdict")).toBe("open");
  });
});

describe("conditions of the air", () => {
  it.each(["F7", "G8", "F9", "F11", "F12"])("as text in %s are not replaced by an assumption", (address) => {
    const test = typed({ [`Depressurization!${address}`]: "about 7" });
    expect(cell(test, `Depressurization!H${address.slice(1)}`)).toMatchObject({ code: "#N/A" });
    expect(summary(test, "Verdict")).toBe("open");
  });

  it("need a barometer read at the house", () => {
    const test = typed({ "Depressurization!F11": null });
    expect(condition(test, "Barometric pressure")).toEqual(["missing", "given", "open"]);
    expect(summary(test, "Verdict")).toBe("open");
  });

  it("assume 50 % humidity in the steps and in the whole test alike, and say so", () => {
    const test = typed({ "Depressurization!F9": null });
    expect(condition(test, "Relative humidity")).toEqual(["50 % assumed", "given", "look into it"]);
    expect(condition(test, "Steps of the readings")[2]).toBe("met");
    expect(summary(test, "Conditions for a verdict")).toBe("met; 1 to look into");
    const typedHalf = typed({ "Depressurization!F9": 0.5 });
    const n50 = "Air change rate n50, depressurization";
    expect(summary(test, n50)).toBe(summary(typedHalf, n50));
  });

  it("give no flow without the density that the certificate is for", () => {
    const test = typed({ "Instruments!D24": null });
    expect(cell(test, "Depressurization!R11")).toMatchObject({ code: "#N/A" });
    expect(summary(test, "Verdict")).toBe("open");
  });
});

describe("temperatures of the other scale", () => {
  const caution = (test: ReturnType<typeof typed>) => cell(test, "Depressurization!B13");

  it("are not minded while they are likely, half filled or missing", () => {
    expect(caution(typed({}))).toBe("");
    expect(condition(typed({}), "Temperatures likely to be in °C")).toEqual(["plausible", "plausible", "met"]);
    for (const missing of [filled("Depressurization", "FG", [7, 8]), { "Depressurization!G7": null }])
      expect(caution(typed(missing))).toBe("");
    expect(caution(typed({ "Depressurization!F8": -35, "Depressurization!G8": 42, "Depressurization!F7": 5 }))).toBe(
      "",
    );
  });

  it.each([
    ["indoors before", { "Depressurization!F7": 48 }, "Indoors hardly °C: was °F typed? 68 °F is 20 °C."],
    ["outdoors after", { "Depressurization!G8": 45 }, "Outdoors hardly °C: was °F typed? 68 °F is 20 °C."],
  ])("are pointed out beside the cells, and looked into: %s", (_, change, words) => {
    const test = typed(change);
    expect(caution(test)).toBe(words);
    expect(condition(test, "Temperatures likely to be in °C")).toEqual(["hardly", "plausible", "look into it"]);
    expect(summary(test, "Conditions for a verdict")).toMatch(/^met; [12] to look into$/);
  });

  it("count in a second run, and not where a run was not made", () => {
    const second = typed({ "Depressurization 2!F7": 2 });
    expect(condition(second, "Temperatures likely to be in °C")).toEqual(["hardly", "plausible", "look into it"]);
    const unused = typed({ ...without("Depressurization 2"), "Depressurization 2!F7": 2 });
    expect(condition(unused, "Temperatures likely to be in °C")).toEqual(["plausible", "plausible", "met"]);
  });
});

describe("a reading as text", () => {
  it.each([
    ["pressure", { "Depressurization!D26": "-57,4" }],
    ["fan pressure", { "Depressurization!F26": "235,9" }],
    ["baseline", { "Depressurization!F16": "-2,0" }],
  ])("for the %s is left out of nothing, the native formulas too", (_, change) => {
    const test = typed(change);
    for (const label of ["Air change rate n50, depressurization", "Air change rate n50, mean"])
      expect(summary(test, label)).toMatchObject({ code: "#N/A" });
    for (const place of ["D8", "D10", "D11"]) expect(typeof cell(test, `Native formulas!${place}`)).not.toBe("number");
    expect(summary(test, "Verdict")).toBe("open");
  });

  it("that is set to no takes no part anyway", () => {
    const test = typed({
      "Depressurization!F26": "235,9",
      "Depressurization!C26": "no",
      "Depressurization!U26": "gust",
    });
    expect(typeof cell(test, "Native formulas!D8")).toBe("number");
  });
});

describe("baselines", () => {
  it("of both signs: the lowest reading is measured by the larger of the means of + and −", () => {
    const row = [3.6, -3.6, 3.6, -3.6, 3.6, -3.6, 3.6, -3.6, 3.6, -3.6];
    const both = Object.fromEntries(
      row.flatMap((value, index) => [16, 17].map((at) => [`Pressurization!${"DEFGHIJKLM".charAt(index)}${at}`, value])),
    );
    const test = typed(both);
    const [share, limit, outcome] = check(test, 2, "dp0_of_min");
    expect(share).toBeCloseToRelative((100 * 3.6) / 11.8);
    expect([limit, outcome]).toEqual(["≤ 20", "not met"]);
    expect(summary(test, "Verdict")).toBe("not valid");
  });

  it("of fewer than ten readings are looked into", () => {
    const test = typed({ "Depressurization!M17": null });
    expect(condition(test, "Baseline readings")).toEqual([9, 10, "look into it"]);
    expect(summary(test, "Verdict")).toBe("pass");
  });

  it("of unlike signs in the two directions are looked into", () => {
    const test = typed(filled("Pressurization", "DEFGHIJKLM", [16, 17], 1.2));
    expect(condition(test, "Baselines of both directions")[2]).toBe("look into it");
  });
});

describe("the budget that decides", () => {
  const windOf = (wind: number | null) =>
    Object.fromEntries(["Depressurization", "Depressurization 2", "Pressurization"].map((run) => [`${run}!F12`, wind]));
  const warnings = "Warnings of the budget that decides";

  it("has no warnings in calm weather", () => {
    expect(condition(typed({}), warnings)).toEqual([0, null, "met"]);
  });

  it("is looked into where the wind was not read", () => {
    const test = typed(windOf(null));
    expect(condition(test, warnings)).toEqual([1, null, "look into it"]);
    expect(summary(test, "Conditions for a verdict")).toBe("met; 1 to look into");
  });

  it("says on the cover that no uncertainty can be given in a wind too strong for the readings", () => {
    const test = typed(windOf(20));
    expect(condition(test, warnings)).toEqual(["no uncertainty", null, "look into it"]);
    expect(panelOnCover(test)).toContain("No uncertainty can be given: see the sheet Uncertainty.");
    expect(summary(test, "Expanded uncertainty")).toBe("");
    expect(panelOnCover(typed({}))).not.toContain("No uncertainty");
    const guarded = typed({ ...windOf(20), "Criteria!J10": "guarded acceptance" });
    expect(summary(guarded, "Verdict")).toBe("open");
  });

  it("of one direction alone says so too", () => {
    const test = typed({ ...windOf(20), ...acceptOne, ...without("Pressurization"), "Criteria!I18": "either" });
    expect(condition(test, warnings)).toEqual(["no uncertainty", null, "look into it"]);
    expect(panelOnCover(test)).toContain("No uncertainty can be given");
  });

  it("is missed where a direction has its second run alone, since the budgets are those of the first runs", () => {
    const test = typed({
      ...acceptOne,
      ...without("Depressurization"),
      ...without("Pressurization"),
      "Criteria!I18": "either",
    });
    expect(summary(test, "Verdict")).toBe("pass");
    expect(condition(test, warnings)).toEqual(["no uncertainty", null, "look into it"]);
    expect(panelOnCover(test)).toContain("No uncertainty can be given");
  });

  it("is not asked for while nothing is tested", () => {
    const runs = ["Depressurization", "Depressurization 2", "Pressurization"];
    const test = typed(Object.assign({}, ...runs.map(without)) as Parameters<typeof typed>[0]);
    expect(condition(test, warnings)).toEqual(["", null, "not tested"]);
    expect(panelOnCover(test)).not.toContain("No uncertainty");
  });
});

describe("a criterion that is half filled", () => {
  it.each([
    ["limit", { "Criteria!E18": null }],
    ["limit, being text,", { "Criteria!E18": "0,6" }],
    ["quantity", { "Criteria!C18": null }],
    ["pressure", { "Criteria!D18": null }],
  ])("without its %s leaves the test open and says so", (_, change) => {
    const test = typed(change);
    expect(summary(test, "Verdict")).toBe("open");
    expect(panelOnCover(test)).toContain("The criterion is not complete on the sheet Criteria.");
  });

  it("is not reproached where it is whole or not chosen", () => {
    for (const test of [typed({}), typed({ "Criteria!C6": null })])
      expect(panelOnCover(test)).not.toContain("not complete on");
  });
});

describe("a criterion that is not chosen", () => {
  it("leaves the test open and says so; nothing is left without a value", () => {
    const test = typed({ "Criteria!C6": null });
    expect(test.evaluation.cells.filter(({ outcome }) => !outcome.evaluated)).toEqual([]);
    expect(shownOnCover(test)).toBe("OPEN");
    expect(panelOnCover(test)).toContain("No criterion chosen");
    expect(summary(test, "Verdict")).toBe("open");
    expect(summary(test, "Air change rate n50, mean")).toBe(summary(typed({}), "Air change rate n50, mean"));
  });
});

describe("a volume convention that is not chosen", () => {
  it("leaves the test open: nothing is wrong with it yet", () => {
    const test = typed({ "Rooms!E28": null });
    expect(condition(test, "Volume convention")).toEqual(["", "room by room", "open"]);
    expect(summary(test, "Verdict")).toBe("open");
  });
});

describe("certificates", () => {
  it.each([
    ["envelope pressure gauge", 7, "gauge_days"],
    ["fan pressure gauge", 8, "gauge_days"],
    ["flow device", 9, "fan_days"],
  ])("of the %s must be there", (_, row, symbol) => {
    const test = typed(filled("Instruments", "CDEFGH", [row, row]));
    expect(cell(test, `Instruments!I${row}`)).toBe("missing");
    expect(check(test, 0, symbol)[2]).toBe("cannot be judged");
    expect(summary(test, "Verdict")).toBe("open");
  });

  it("dated after the test day are found, though they have not run out", () => {
    const test = typed({ "Instruments!G9": 46_400 });
    expect(check(test, 0, "fan_days")[2]).toBe("met");
    expect(condition(test, "Further certificates")).toEqual(["dated after the test", null, "not met"]);
    expect(summary(test, "Verdict")).toBe("not valid");
  });

  it("of a further instrument count as soon as any of its cells is filled", () => {
    const test = typed({ "Instruments!D13": "X-1" });
    expect(cell(test, "Instruments!I13")).toBe("date missing");
    expect(summary(test, "Verdict")).toBe("not valid");
  });

  it("cannot be judged without the day of the test, and the cover says so", () => {
    const test = typed({ "Cover!G6": null });
    expect(condition(test, "Further certificates")).toEqual(["no test day", null, "open"]);
    expect(check(test, 2, "gauge_days")[2]).toBe("cannot be judged");
    expect(panelOnCover(test)).toContain("Day of the test missing.");
  });

  it("without a range for the opening in use leave the flow without a value", () => {
    const test = typed({ "Instruments!F19": null });
    expect(condition(test, "Certified range")).toEqual(["missing", "missing", "open"]);
    expect(cell(test, "Depressurization!L24")).toMatchObject({ code: "#N/A" });
    expect(summary(test, "Verdict")).toBe("open");
  });
});

describe("what the cover says", () => {
  it("names the direction that has readings but no result", () => {
    const test = typed({ "Depressurization!F26": 310 });
    expect(panelOnCover(test)).toContain("Depressurization shows an error: see its sheet.");
    expect(panelOnCover(test)).not.toContain("Pressurization shows");
  });

  it("calls a direction without readings not tested", () => {
    const test = typed({ ...iecc, ...acceptOne, ...without("Pressurization") });
    expect(summary(test, "Verdict")).toBe("pass");
    expect(summary(test, "Air change rate n50, pressurization")).toBe("not tested");
    expect(check(test, 0, "q50_apart")[2]).toBe("cannot be judged");
    expect(condition(test, "Baselines of both directions")[2]).toBe("not tested");
    const results = test.book.sheets.findIndex(({ name }) => name === "Results");
    const errors = test.evaluation.cells.filter(
      ({ sheet, outcome }) =>
        (sheet === 0 || sheet === results) && !(outcome.evaluated && typeof outcome.value !== "object"),
    );
    expect(errors.map(({ address }) => address)).toEqual([]);
  });
});

describe("a result outside the readings", () => {
  it("above them gets no verdict", () => {
    const test = typed({ "Criteria!C6": "US Army Corps of Engineers" });
    expect(condition(test, "Criterion’s pressure reached")[2]).toBe("not met");
    expect(check(test, 0, "reach_pr")[2]).toBe("not met");
    expect(summary(test, "Verdict")).toBe("not valid");
  });

  it("below them is looked into, and its uncertainty grows", () => {
    const test = typed({ "Criteria!C6": "England, Part L 2021, at 4 Pa" });
    expect(check(test, 0, "reach_pr")[2]).toBe("not met");
    expect(summary(test, "Conditions for a verdict")).toBe("met; 4 to look into");
    expect(summary(test, "Verdict")).toBe("pass");
    const share = (one: typeof test) =>
      (summary(one, "Expanded uncertainty") as number) / (summary(one, "Result that decides") as number);
    expect(share(test)).toBeGreaterThan(2 * share(typed({})));
  });
});

describe("the line beside the verdict names the first check that stands in its way", () => {
  it.each<[string, Parameters<typeof typed>[0], string]>([
    [
      "a check of this workbook",
      { "Rooms!D7": 9.35 },
      "not met. First: “Outlines that the rooms fill: least, most, %” on the sheet Results.",
    ],
    [
      "one that is open",
      { "Depressurization!C26": "no" },
      "First: “Readings left out have their reason” on the sheet Results.",
    ],
    [
      "a check of the standard",
      { "Instruments!H9": 46000 },
      "First: “certificate of the flow device, days left on the test day” on the sheet Validity.",
    ],
    [
      "one that cannot be judged",
      { "Instruments!H9": null },
      "First: “certificate of the flow device, days left on the test day” on the sheet Validity.",
    ],
  ])("%s", (_, change, words) => {
    expect(panelOnCover(typed(change))).toContain(words);
  });

  it("in the summary too", () => {
    const test = typed({ "Rooms!D7": 9.35 });
    expect(cell(test, "Results!K13")).toBe("Conditions for a verdict");
    expect(cell(test, "Results!M13")).toBe(
      "First: “Outlines that the rooms fill: least, most, %” on the sheet Results.",
    );
    expect(cell(typed({}), "Results!M13")).toBe("");
  });

  it("and none where none does", () => {
    expect(panelOnCover(typed({}))).toMatch(/Conditions for a verdict: met\.$/);
  });
});
