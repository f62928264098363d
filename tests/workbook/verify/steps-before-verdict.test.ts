import { describe, expect, it } from "vitest";
import { readFileSync } from "node:fs";
import { verifyWorkbook } from "../../../src/workbook/verify/verify";
import { slow } from "../../time-outs";
import { type Cells, house, ownSheet, put, saidOf, shownIn } from "./bare";
import { addIn, Tampered } from "./tampered";

/** A firm's sheet whose mean n50 of 0.769 1/h fails its limit of 0.76 1/h, unless a step helps it. */
function judged(change: (cells: Cells) => void): Cells {
  const valid = {
    "test date": 46310,
    "gauge certificate valid until": 46600,
    "flow device certificate valid until": 46600,
  };
  return ownSheet(valid, (cells) => {
    put(cells, "A51", ["limit n50, 1/h", 0.76], "across");
    put(cells, "A52", ["verdict", { f: "_xldudf_STILLAIR_PASSFAIL(B50,B51,,,,AA44:AI78,AA84:AI118)" }], "across");
    change(cells);
  });
}

const findings = (cells: Cells): string[] => saidOf({ Test: cells });

const mean = (symbol: string): string =>
  `AVERAGE(INDEX(AC2:AC39,MATCH("${symbol}",AB2:AB39,0)),INDEX(AK2:AK39,MATCH("${symbol}",AJ2:AJ39,0)))`;

/** Flows of both directions, each made by a formula from the figure typed in beside it. */
function typeBeside(cells: Cells, make: (source: string) => string, headed = true): void {
  if (headed) for (const column of ["L", "M"]) cells[`${column}1`] = "flow shown, m³/h";
  put(cells, "L2", house.flowsDown);
  put(cells, "M2", house.flowsUp);
  put(
    cells,
    "B2",
    house.flowsDown.map((_, index) => ({ f: make(`L${index + 2}`) })),
  );
  put(
    cells,
    "E2",
    house.flowsUp.map((_, index) => ({ f: make(`M${index + 2}`) })),
  );
}

const dimensions = (cells: Cells, volume: string): void => {
  put(cells, "K59", ["length", "width", "height"], "across");
  put(cells, "K60", [10, 10, 3], "across");
  cells["B60"] = { f: volume };
};

describe("the sheet without any such step", () => {
  it("fails, and nothing is found", () => {
    const cells = judged(() => undefined);
    expect(shownIn(cells, "B52")).toBe("fail");
    expect(findings(cells)).toEqual([]);
  });
});

describe("a result that is not the quantity of its limit", () => {
  it.each([
    ["a flow per area over a height", `${mean("qF50")}/3.1`],
    ["a flow over a volume that was added to", `${mean("q50")}/(B60+20)`],
    ["a flow over a written volume", `${mean("q50")}/320`],
    ["half of what the method gives", `${mean("n50")}/2`],
  ])("is found: %s", (_, formula) => {
    const cells = judged((own) => (own["B50"] = { f: formula }));
    expect(shownIn(cells, "B52")).toBe("pass");
    expect(findings(cells)).toContainEqual(expect.stringMatching(/^warning: step without explanation in Test!B50/));
  });

  it("is explained where a formula of the sheet divides the flow by the test's own volume", () => {
    const cells = judged((own) => (own["B50"] = { f: `${mean("q50")}/B60` }));
    expect(findings(cells)).toEqual([]);
  });

  it("is found in the final test, and its verdict is not counted as explained", { timeout: slow }, () => {
    const copy = new Tampered(new Uint8Array(readFileSync("sample-workbooks/final-test.xlsx")));
    copy.reformulate(["Results", "F38"], (formula) => `(${formula})/2`);
    const { findings: found, checked } = verifyWorkbook(copy.open(), addIn, new Date("2026-11-02T09:00:00Z"));
    expect(found.map(({ kind, place }) => `${kind} in ${place}`)).toContain("step without explanation in Results!F38");
    const explained = checked.find(({ what }) => what.startsWith("verdicts explained"));
    expect(explained?.right).toBeLessThan(explained?.of ?? 0);
  });
});

describe("flows that a formula makes smaller", () => {
  it.each([
    [
      "by a typed correction",
      (source: string) => `${source}*$O$1`,
      /^warning: flows adjusted in Test!B2: 8 flows .* multiplied by 0.9: .*“?fail/,
    ],
    ["by a step", (source: string) => `${source}-8`, /^warning: flows adjusted in Test!B2: 8 flows .* less 8: /],
  ])("are found: %s", (_, make, expected) => {
    const cells = judged((own) => {
      put(own, "N1", ["correction", 0.9], "across");
      typeBeside(own, make);
    });
    expect(shownIn(cells, "B52")).toBe("pass");
    expect(findings(cells)).toContainEqual(expect.stringMatching(expected));
  });

  it("are found by a factor within the formula, in a column without a heading too, from the first cell on", () => {
    const cells = judged((own) => typeBeside(own, (source) => `${source}*0.95`, false));
    expect(findings(cells)).toContainEqual(
      expect.stringMatching(/^warning: hard-coded figure in Test!B2: .* 0.95, and 7/),
    );
  });

  it.each([
    ["a unit", (source: string) => `${source}/0.588578`],
    ["a density that is computed", (source: string) => `${source}*$O$2`],
    ["nothing", (source: string) => source],
  ])("are left alone where the formula is %s", (_, make) => {
    const cells = judged((own) => {
      put(own, "N2", ["√(ρ_cal/ρ)", { f: "SQRT(1.2/1.24)" }], "across");
      typeBeside(own, make);
    });
    expect(findings(cells).filter((said) => said.includes("flows adjusted"))).toEqual([]);
  });
});

describe("a volume that is more than its dimensions", () => {
  it.each([
    ["by a written figure", "K60*L60*M60+15", "adds 15"],
    ["by a cell that says nothing of it", "K60*L60*M60+X60", "adds 15"],
    ["by rounding up", "CEILING(K60*L60*M60+K60/10,50)", "rounds 301 up to 350"],
  ])("is found: %s", (_, formula, what) => {
    const cells = judged((own) => {
      own["X60"] = 15;
      dimensions(own, formula);
    });
    expect(shownIn(cells, "B52")).toBe("pass");
    expect(findings(cells)).toContainEqual(
      expect.stringContaining(`hard-coded figure in Test!B60: =${formula} ${what}`),
    );
  });

  it("is left alone where it is the product of the dimensions, rounded as they are, or looked up", () => {
    const looked = judged((own) => {
      put(own, "J58", ["drawing", "storeys", "volume"]);
      own["K61"] = 300;
      own["B60"] = { f: 'INDEX(K58:K61,MATCH("volume",J58:J60,0)+1)' };
    });
    expect(findings(looked)).toEqual([]);
    for (const formula of ["K60*L60*M60", "ROUND(K60*L60*M60,0)", "ROUND(K60,1)*L60*M60"]) {
      const rounded = judged((own) => {
        dimensions(own, formula);
        own["K60"] = 10.26;
      });
      expect(findings(rounded)).toEqual([]);
    }
  });
});

describe("a volume that its floor area makes too high", () => {
  const withVolume = (volume: number, limit: number) =>
    judged((cells) => {
      cells["B60"] = volume;
      cells["B51"] = limit;
    });

  it("is found where only the height makes the house pass", () => {
    const cells = withVolume(575, 0.41);
    expect(shownIn(cells, "B52")).toBe("pass");
    expect(findings(cells)).toEqual([
      expect.stringMatching(/^warning: room heights in Test!B60: .* a mean height of 5 m; with 2.6 m .* exceeded/),
    ]);
  });

  it("is left alone where the house passes without", () => {
    expect(findings(withVolume(575, 0.8))).toEqual([]);
    expect(findings(withVolume(400, 0.6))).toEqual([]);
  });
});
