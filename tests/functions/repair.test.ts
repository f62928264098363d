import { describe, expect, test } from "vitest";
import { finalForecast, holeDiameter, leakageDifference as difference, targetGap as gap } from "../../src/functions";
import { cellsOf, column, errorIn, refusal } from "./errors";

// A spilled table holds cells of any kind; as unknown, each test says what it expects.
const targetGap = (...given: Parameters<typeof gap>): unknown[][] => gap(...given);
const leakageDifference = (...given: Parameters<typeof difference>): unknown[][] => difference(...given);

const limit = [
  ["quantity", "air change rate"],
  ["volume", 300],
];
const valueOf = (table: unknown[][], symbol: string) => table.find((cells) => cells[1] === symbol)![2];

describe("TARGETGAP", () => {
  test("one flow is a table, several are a row each in the same order", () => {
    const table = targetGap([[500]], [[1.5]], limit);
    expect(valueOf(table, "state")).toBe("limit not met");
    expect(valueOf(table, "q_remove")).toBe(50);
    expect(valueOf(table, "remove_pct")).toBe(10);
    const rows = targetGap(column(500, "", 400, "x"), [[1.5]], [...limit, ["headings", "yes"]]);
    expect(rows[0]).toEqual(table.map((cells) => cells[1]));
    expect(rows[1]).toEqual(table.map((cells) => cells[2]));
    expect(rows[2]!.every((cell) => cell === "")).toBe(true);
    expect(rows[3]!.slice(0, 2)).toEqual(["limit met", 400]);
    expect(rows[3]!.slice(-2)).toEqual([50, expect.closeTo(100 / 9, 12)]);
    expect(errorIn(rows[4]![0]).message).toMatch(/^flow, row 4: /);
    expect(new Set(table.map((cells) => String(cells[1]).toLowerCase())).size).toBe(table.length);
  });

  test("each unit system gives the same house", () => {
    const foot = 0.3048;
    const cfm = (foot ** 3 / 60) * 3600;
    const metric = targetGap([[500]], [[1.5]], limit);
    const imperial = targetGap(
      [[500 / cfm]],
      [[1.5]],
      [
        ["quantity", "air change rate"],
        ["volume", 300 / foot ** 3],
        ["units", "IP"],
      ],
    );
    expect(valueOf(imperial, "q_remove")).toBeCloseTo(50 / cfm, 10);
    expect(valueOf(imperial, "ELA4")).toBeCloseTo((valueOf(metric, "ELA4") as number) / 2.54 ** 2, 10);
    expect(valueOf(imperial, "d_hole")).toBeCloseTo((valueOf(metric, "d_hole") as number) / 25.4, 10);
  });

  test("the exponent is named where it counts, and only there", () => {
    const sources = (settings: unknown[][]) =>
      new Map(targetGap([[500]], [[1.5]], settings).map((row) => [row[1], row[6]] as const));
    const at50 = sources(limit);
    expect([at50.get("q50_limit"), at50.get("result")]).toEqual(["", ""]);
    expect(at50.get("ELA4")).toBe("ASTM E779-19; n 0.65 assumed");
    const at4 = sources([...limit, ["reference pressure", 4], ["exponent", 0.6]]);
    expect(at4.get("q50_limit")).toBe("q50·(Δp/50)^n, n 0.6");
    expect(at4.get("EqLA10")).toBe("CAN/CGSB-149.10; n 0.6");
  });

  test("the quantity, its size and the definition of an area are never guessed", () => {
    const needs = (settings: unknown[][]) => refusal(() => targetGap([[500]], [[1.5]], settings));
    const choices = "it is one of: air change rate, per envelope area, per floor area, leakage area per envelope area";
    expect(needs([])).toEqual({ code: "#N/A", message: `settings: "quantity" is not given yet; ${choices}` });
    expect(needs([["quantity", "per envelope area"]])).toEqual({
      code: "#N/A",
      message: "settings: envelope area: needed with per envelope area",
    });
    const area = [
      ["quantity", "leakage area per envelope area"],
      ["envelope area", 400],
    ];
    expect(needs(area).message).toMatch(/^settings: leakage area definition: .*factor of two/);
    const named = [...area, ["leakage area definition", "equivalent 10 Pa"]];
    expect(valueOf(targetGap([[500]], [[0.7]], named), "state")).toMatch(/^limit/);
    expect(needs([...named, ["reference pressure", 4]]).message).toMatch(/^settings: reference pressure: .*fixes it/);
  });

  test("a blank flow leaves the table calm", () => {
    expect(targetGap([[""]], [[1.5]], limit).map((cells) => cells[2])).toEqual(Array(14).fill(""));
  });
});

describe("LEAKAGEDIFFERENCE", () => {
  test("a tape-and-retest series: each place, its share of the first flow, and whether it counts", () => {
    const rows = leakageDifference(column(500, 430, 425, ""), column(430, 425, 300, ""), [[6]], [[6]], [[0.01]], "yes");
    expect(rows.slice(1).map((cells) => [cells[0], cells[5], cells[6]])).toEqual([
      [70, 14, "significant"],
      [5, 1, "not significant"],
      [125, 25, "significant"],
      ["", "", ""],
    ]);
    expect(rows[1]![4]).toBe(14);
    expect(rows[2]![4]).toBeCloseTo(500 / 430, 12);
  });

  test("where the first row is wrong, no other row takes its place as the whole", () => {
    const shares = (first: unknown) => leakageDifference(column(first, 430), column(400, 300)).map((cells) => cells[5]);
    expect(shares(520)[1]).toBe(25);
    expect(shares("")[1]).toBeCloseTo(100 * (130 / 430), 12);
    for (const wrong of [{ type: "Error", basicValue: "#DIV/0!" }, -500, "many"]) expect(shares(wrong)[1]).toBe("");
  });

  test("without uncertainties there is a change and no judgement; one alone is missing its other", () => {
    expect(leakageDifference([[500]], [[430]])).toEqual([[70, "", "", "", 14, 14, "cannot be judged"]]);
    expect(refusal(() => leakageDifference([[500]], [[430]], [[5]]))).toEqual({
      code: "#N/A",
      message: "uncertainty_after: needed with uncertainty_before",
    });
  });

  test("a common part larger than the whole, a percent typed as a number, a negative uncertainty", () => {
    const message = (...given: number[]) =>
      refusal(() => leakageDifference([[500]], [[430]], ...given.map((value) => [[value]]))).message;
    expect(message(5, 5, 0.02)).toMatch(/^uncertainty_before: 5 is less than its common part, 10/);
    expect(message(20, 20, 2)).toMatch(/^common_uncertainty: a fraction/);
    expect(message(-5, 5)).toMatch(/^uncertainty_before: /);
  });

  test("an error in one cell stays in its row", () => {
    const rows = leakageDifference(column("#REF!", 500), column(400, 430));
    expect(errorIn(rows[0]![0]).message).toMatch(/^flow_before, row 1: the cell holds #REF!/);
    expect(rows[1]).toEqual([70, "", "", "", 14, "", "cannot be judged"]);
  });
});

describe("HOLEDIAMETER", () => {
  test("a circle of 100 mm is 78.54 cm², in each unit system, blanks staying blank", () => {
    expect(cellsOf(holeDiameter(column(25 * Math.PI, "", 0)))).toEqual([expect.closeTo(100, 10), "", ""]);
    expect(cellsOf(holeDiameter([[Math.PI / 4]], undefined, "IP"))[0]).toBeCloseTo(1, 12);
    expect(cellsOf(holeDiameter([[6 * Math.PI]], [[0.6]]))[0]).toBeCloseTo(20 * Math.sqrt(10), 10);
  });

  test("a coefficient above 1 and a negative area are refused", () => {
    expect(refusal(() => holeDiameter([[10]], [[6]])).message).toMatch(/^discharge_coefficient: /);
    expect(refusal(() => holeDiameter([[-10]])).message).toMatch(/^area: must be above 0/);
  });
});

describe("FINALFORECAST", () => {
  const forecast = (repairs: unknown[][], openings: unknown[][], settings: unknown[][] = limit) =>
    finalForecast([[500]], [[10]], repairs, openings, [[1.5]], settings);

  test("one, two or three columns; blank and zero rows do not count", () => {
    expect(valueOf(forecast([[100]], [[""]]), "q50_likely")).toBe(400);
    expect(valueOf(forecast([[80, 150]], [[0]]), "q50_likely")).toBe(385);
    expect(
      valueOf(
        forecast(
          [
            [100, 80, 150],
            [0, 0, 0],
            ["", "", ""],
          ],
          [[20, 40]],
        ),
        "q50_likely",
      ),
    ).toBe(430);
    expect(valueOf(forecast([[100, 80, 150]], [[20, 40]]), "likely")).toBeCloseTo(430 / 300, 12);
    expect(valueOf(forecast([[0, 0, 50]], [[""]]), "q50_likely")).toBe(500);
  });

  test("the outlook is a word of its own, not a verdict, with its probability", () => {
    expect(valueOf(forecast([[100]], [[""]]), "outlook")).toBe("meets the limit with a margin");
    expect(valueOf(forecast([[100]], [[""]]), "p_meet")).toBeGreaterThan(0.999);
    expect(valueOf(forecast([[""]], [[""]]), "outlook")).toBe("misses the limit by a margin");
    expect(valueOf(forecast([[50]], [[""]]), "outlook")).toBe("can go either way");
    expect(valueOf(forecast([[50]], [[""]]), "p_meet")).toBe(0.5);
  });

  test("degrees of freedom of the flow are a setting, and the table says where they are missing", () => {
    const degrees = (settings: unknown[][]): unknown[] =>
      forecast([[100]], [[""]], [...limit, ...settings]).find((cells) => cells[1] === "dof")!;
    expect(degrees([]).slice(2)).toEqual([
      "infinite",
      "",
      "",
      "",
      'the setting "flow degrees of freedom" is not given; few readings need it',
    ]);
    expect(degrees([["flow degrees of freedom", 3]]).slice(2)).toEqual([
      3,
      "",
      "",
      "",
      "JCGM 100:2008 G.4.1, truncated",
    ]);
    const upper = (settings: unknown[][]) =>
      forecast([[100]], [[""]], [...limit, ...settings]).find((cells) => cells[1] === "q50_mean")![4] as number;
    expect(upper([["flow degrees of freedom", 3]])).toBeCloseTo(400 * Math.exp((3.182446 * 10) / 400), 3);
    expect(upper([])).toBeCloseTo(400 * Math.exp((1.959964 * 10) / 400), 3);
  });

  test("ranges out of order or half blank name their row, and repairs cannot remove more than leaks", () => {
    expect(
      refusal(() =>
        forecast(
          [[100], [1]].map(([a]) => [a, 80, 150]),
          [[""]],
        ),
      ).message,
    ).toMatch(/^repairs, row 2: /);
    expect(refusal(() => forecast([[150, 80]], [[""]])).message).toMatch(/^repairs, row 1: /);
    expect(refusal(() => forecast([[100]], [[20, ""]])).code).toBe("#N/A");
    expect(refusal(() => forecast([[-5]], [[""]])).message).toMatch(/^repairs, row 1: /);
    expect(refusal(() => forecast([[600]], [[""]])).message).toMatch(/^repairs: they remove more than the leakage/);
  });

  test("what is still missing is named, a half-filled form stays calm", () => {
    const missing = (...given: Parameters<typeof finalForecast>) => refusal(() => finalForecast(...given));
    expect(missing([[""]], [[10]], [[1]], [[1]], [[1.5]], limit)).toEqual({
      code: "#N/A",
      message: "flow: not given yet",
    });
    expect(missing([[500]], [[""]], [[1]], [[1]], [[1.5]], limit).message).toMatch(/^flow_uncertainty: /);
    expect(missing([[500]], [[0]], [[1]], [[1]], [[0]], limit)).toEqual({
      code: "#N/A",
      message: "target: not given yet",
    });
    expect(missing([[500]], [[0]], [[1]], [[1]], [[1.5]], []).message).toMatch(/^settings: "quantity"/);
  });
});
