import { describe, expect, it } from "vitest";
import { evaluation, house, ownSheet, put, saidOf, settings, type Cells } from "./bare";
import { slow } from "../../time-outs";

/** Sheets of a firm's own, filled in honestly: nothing is wrong with them, and nothing doubtful. */
describe("an honest sheet in another layout", { timeout: slow }, () => {
  it("readings downwards, both directions side by side", () => {
    expect(saidOf({ Test: ownSheet() })).toEqual([]);
  });

  it("a column of times before the pressures", () => {
    const given = { "time of baseline before": 0, "time of baseline after": 9 };
    const cells = ownSheet(given, (own) => {
      for (const [times, pressures, read] of [
        ["K", "L", house.down],
        ["N", "O", house.up],
      ] as const) {
        put(
          own,
          `${times}2`,
          read.map((_, index) => index + 1),
        );
        put(own, `${pressures}2`, read);
      }
      const range = `A60:B${61 + 7}`;
      evaluation(own, `K2:L9,B2:B9,G3:G7,H3:H7,${range}`, `N2:O9,E2:E9,I3:I7,J3:J7,${range}`);
    });
    expect(saidOf({ Test: cells })).toEqual([]);
  });

  it("tables as array formulas with braces, over the whole of their area", () => {
    expect(saidOf({ Test: ownSheet() }, (xml) => xml.replaceAll(' cm="1"', ""))).toEqual([]);
  });

  it("readings across, one excluded, its reason below it", () => {
    const cells: Cells = { A2: "Pa", A3: "m³/h", A4: "counts", A5: "why not", A7: "Pa", A8: "m³/h" };
    put(cells, "B2", house.down, "across");
    put(cells, "B3", house.flowsDown, "across");
    put(cells, "B4", ["yes", "yes", "no", "yes", "yes", "yes", "yes", "yes"], "across");
    cells["D5"] = "gust of wind while reading";
    put(cells, "B7", house.up, "across");
    put(cells, "B8", house.flowsUp, "across");
    put(cells, "B10", house.before, "across");
    put(cells, "B11", house.after, "across");
    put(cells, "B12", house.beforeUp, "across");
    put(cells, "B13", house.afterUp, "across");
    const range = settings(cells);
    evaluation(cells, `B2:I2,B3:I3,B10:F10,B11:F11,${range},B4:I4`, `B7:I7,B8:I8,B12:F12,B13:F13,${range}`);
    expect(saidOf({ Test: cells })).toEqual([]);
    delete cells["D5"];
    expect(saidOf({ Test: cells })).toEqual([expect.stringMatching(/^warning: excluded without a reason in Test!D4/)]);
  });

  it("all pressures in one column, a baseline above and below each series", () => {
    const cells: Cells = { D2: { f: "MAX(A3:A10)" } };
    put(cells, "A2", [-1.2, ...house.down, -1.1, -1.4, ...house.up.slice(0, 7), -1.2]);
    put(cells, "B3", house.flowsDown);
    put(cells, "B13", house.flowsUp.slice(0, 7));
    const range = settings(cells);
    evaluation(cells, `A3:A10,B3:B10,A2,A11,${range}`, `A13:A19,B13:B19,A12,A20,${range}`);
    expect(saidOf({ Test: cells })).toEqual([]);
  });

  it("as many baseline readings as pressures, some rows further down", () => {
    const change = (cells: Cells) => {
      delete cells["G3"];
      delete cells["G4"];
      put(cells, "G5", [...house.before, -1.0, -0.8, -1.6]);
      put(cells, "H3", [...house.after, -1.3, -0.9, -1.2]);
      const given = "A2:A9,B2:B9,G5:G12,H3:H10,A60:B66";
      cells["AA2"] = { f: `_xldudf_STILLAIR_TESTRESULT("depressurization",${given})`, ref: "AA2:AG42" };
      cells["AA44"] = { f: `_xldudf_STILLAIR_VALIDITYCHECKS("depressurization",${given})`, ref: "AA44:AI78" };
    };
    expect(saidOf({ Test: ownSheet({}, change) })).toEqual([]);
  });

  it("°F, hPa and per cent that formulas convert", () => {
    const given = {
      "indoor temperature": { f: "(B75-32)/1.8" },
      "outdoor temperature": { f: '_xldudf_STILLAIR_CONVERTUNITS(B76,"°F","°C")' },
      "barometric pressure": { f: "B77*100" },
      "indoor humidity": { f: "B78/100" },
    };
    expect(saidOf({ Test: ownSheet(given, (cells) => put(cells, "B75", [70, 47, 1009.3, 46])) })).toEqual([]);
    // The same figures handed on as they are.
    const raw = {
      ...given,
      "indoor temperature": { f: "AVERAGE(B75,B75)" },
      "barometric pressure": { f: 'IF(B77="","",B77)' },
    };
    const said = saidOf({ Test: ownSheet(raw, (cells) => put(cells, "B75", [70, 47, 1009.3, 46])) });
    expect(said).toContainEqual(expect.stringMatching(/^error: temperature unit in Test!B75/));
    expect(said).toContainEqual(expect.stringMatching(/^error: barometer unit in Test!B77/));
  });

  it("pressures in inches of water that formulas convert, IP units", () => {
    const given = {
      units: "IP",
      volume: 10_594,
      "floor area": 1240,
      "indoor temperature": 70,
      "outdoor temperature": 46,
      "barometric pressure": 29.8,
    };
    const change = (cells: Cells) => {
      for (const [from, to, pressures, flows] of [
        ["P", "A", house.down, house.flowsDown],
        ["Q", "D", house.up, house.flowsUp],
      ] as const) {
        put(
          cells,
          `${from}2`,
          pressures.map((pressure) => Number((pressure / 249.0889).toFixed(4))),
        );
        put(
          cells,
          `${to}2`,
          pressures.map((_, index) => ({ f: `${from}${index + 2}*249.0889` })),
        );
        put(
          cells,
          `${to === "A" ? "B" : "E"}2`,
          flows.map((flow) => Number((flow / 1.699).toFixed(1))),
        );
      }
    };
    expect(saidOf({ Test: ownSheet(given, change) })).toEqual([]);
  });

  it("pressures outdoors minus indoors, said so", () => {
    const turn = (cells: Cells) => {
      for (const [address, value] of Object.entries(cells))
        if (/^[ADGHIJ]\d$/.test(address) && typeof value === "number") cells[address] = -value;
    };
    expect(saidOf({ Test: ownSheet({ "pressure sign": "outdoors minus indoors" }, turn) })).toEqual([]);
  });

  it("a baseline measured once, that the other direction fetches by formulas", () => {
    const fetch = (cells: Cells) =>
      put(
        cells,
        "I3",
        house.before.map((_, index) => ({ f: `G${index + 3}` })),
      );
    expect(saidOf({ Test: ownSheet({}, fetch) })).toEqual([]);
  });

  it("one series evaluated a second time on another sheet", () => {
    const again: Cells = {};
    put(
      again,
      "A2",
      house.down.map((_, index) => ({ f: `Test!A${index + 2}` })),
    );
    put(
      again,
      "B2",
      house.down.map((_, index) => ({ f: `Test!B${index + 2}` })),
    );
    const given = "A2:A9,B2:B9,Test!G3:G7,Test!H3:H7,Test!A60:B66";
    again["AA2"] = { f: `_xldudf_STILLAIR_TESTRESULT("depressurization",${given})`, ref: "AA2:AG42" };
    expect(saidOf({ Test: ownSheet(), Again: again })).toEqual([]);
  });

  it("a very leaky house and a very tight one", () => {
    for (const factor of [30, 1 / 12]) {
      const change = (cells: Cells) => {
        put(
          cells,
          "B2",
          house.flowsDown.map((flow) => Number((flow * factor).toFixed(2))),
        );
        put(
          cells,
          "E2",
          house.flowsUp.map((flow) => Number((flow * factor).toFixed(2))),
        );
      };
      expect(saidOf({ Test: ownSheet({}, change) })).toEqual([]);
    }
  });
});
