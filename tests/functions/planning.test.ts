import { describe, expect, test } from "vitest";
import {
  airDensity,
  allowedLeakage,
  areaFlow,
  componentLeakage,
  fanDemand,
  pressureStations,
  stackPressure,
  windPressure,
} from "../../src/functions";
import { cellsOf, column, errorIn, refusal } from "./errors";

const none = undefined as never;
const changes = [["quantity", "air change rate"]];
const placeOf = (table: unknown[][], place: number): unknown[] => table.map((row) => row[place]);
const blankRow = Array<string>(8).fill("");

describe("ALLOWEDLEAKAGE", () => {
  test("a table of sizes: a blank size leaves its row blank, a bad one spoils its own row only", () => {
    const table = allowedLeakage([[0.6]], changes, column(300, "", 0, null, -5, "big", 450));
    expect(table.map((row) => row.length)).toEqual(Array<number>(7).fill(8));
    expect([table[0]?.[0], table[6]?.[0]]).toEqual([180, 270]);
    for (const row of [1, 2, 3]) expect(table[row]).toEqual(blankRow);
    expect(errorIn(table[4]?.[0])).toEqual({ code: "#VALUE!", message: "volumes, row 5: must be above 0 (got -5)" });
    expect(errorIn(table[5]?.[7]).message).toMatch(/^volumes, row 6: a number is needed/);
  });

  test("limits in a column, each for its own size", () => {
    const table = allowedLeakage(column(0.6, 1, ""), changes, column(500, 500, 500));
    expect(placeOf(table, 0)).toEqual([300, 500, ""]);
  });

  test("a size that the limit does not need only leaves its own column blank", () => {
    const table = allowedLeakage([[0.6]], changes, [[500]], column(400, "", 0));
    expect(placeOf(table, 3)).toEqual([0.75, "", ""]);
    expect(placeOf(table, 0)).toEqual([300, 300, 300]);
    expect(errorIn(allowedLeakage([[0.6]], changes, [[500]], column(400, -1))[1]?.[0]).message).toBe(
      "envelope_areas, row 2: must be above 0 (got -1)",
    );
  });

  test("sizes from the settings; a column takes their place, its blanks included", () => {
    const settings = [...changes, ["volume", 500], ["envelope area", 600], ["floor area", 200]];
    expect(allowedLeakage([[0.6]], settings)[0]?.slice(0, 5)).toEqual([300, 300, 0.6, 0.5, 1.5]);
    expect(allowedLeakage([[0.6]], settings, column(250, ""))).toEqual([
      allowedLeakage([[0.6]], [...changes, ["volume", 250], ["envelope area", 600], ["floor area", 200]])[0],
      blankRow,
    ]);
    expect(allowedLeakage([[0.6]], settings, none, [[""]])[0]?.[3]).toBe("");
  });

  test("what is still missing is #N/A and named", () => {
    expect(refusal(() => allowedLeakage([[0.6]]))).toEqual({
      code: "#N/A",
      message:
        'settings: "quantity" is not given yet; it is one of: air change rate, per envelope area, per floor area, leakage area per envelope area',
    });
    expect(refusal(() => allowedLeakage([[0.6]], changes)).message).toMatch(/^settings: volume: /);
    const area = [["quantity", "leakage area per envelope area"]];
    expect(refusal(() => allowedLeakage([[0.7]], area, none, [[300]])).code).toBe("#N/A");
    expect(refusal(() => allowedLeakage([[0.7]], area, none, [[300]])).message).toMatch(/leakage area definition/);
    expect(allowedLeakage([[""]], changes, [[500]])).toEqual([blankRow]);
  });

  test("columns of unlike size are refused; a heading row on request names the units", () => {
    expect(refusal(() => allowedLeakage([[0.6]], changes, column(1, 2), column(1, 2, 3))).message).toMatch(
      /^envelope_areas: 3 rows, but volumes has 2/,
    );
    const [head, row] = allowedLeakage([[0.6]], [...changes, ["headings", "yes"], ["units", "IP"]], [[15000]]);
    expect(head).toHaveLength(8);
    expect(head?.slice(0, 2)).toEqual(["q50, cfm", "flow at the limit's pressure, cfm"]);
    expect(row?.[0]).toBeCloseTo(150, 10);
  });

  test("ten thousand sizes in one call", () => {
    const volumes = Array.from({ length: 10_000 }, (_, index) => [200 + index / 10]);
    const table = allowedLeakage([[0.6]], changes, volumes);
    expect(table).toHaveLength(10_000);
    expect(table[9999]?.[0]).toBe(0.6 * (200 + 999.9));
  });
});

describe("PRESSURESTATIONS", () => {
  test("signed by the direction, the gauge shows the baseline too; readings are averaged", () => {
    expect(pressureStations([[20]], [[60]], [[3]], "depressurization", column(-1, -2, ""))).toEqual([
      [-60, -61.5],
      [-40, -41.5],
      [-20, -21.5],
    ]);
    expect(pressureStations([[20]], [[60]], [[2]], "pressurization", [[-1.5]])).toEqual([
      [60, 58.5],
      [20, 18.5],
    ]);
    expect(pressureStations([[20]], [[60]], [[2]])).toEqual([
      [60, 60],
      [20, 20],
    ]);
  });

  test("refuses what would mislead", () => {
    const message = (...given: Parameters<typeof pressureStations>) => refusal(() => pressureStations(...given));
    expect(message([[20]], [[60]], [[3]], none, [[-1]])).toEqual({
      code: "#N/A",
      message: "direction: the sign of the pressures is needed to add the baseline",
    });
    expect(message([[2]], [[60]], [[3]], "depressurization", [[3]]).message).toMatch(/^baseline: /);
    expect(message([[60]], [[20]], [[3]]).message).toMatch(/^highest: must be above the lowest/);
    expect(message([[20]], [[60]], [[2.5]]).message).toMatch(/^count: a whole number/);
    expect(message([[20]], [[60]], [[1e9]]).message).toMatch(/^count: /);
    expect(message([[0]], [[60]], [[3]])).toEqual({ code: "#N/A", message: "lowest: not given yet" });
    expect(message(column(10, 20), [[60]], [[3]]).message).toBe("lowest: one cell is needed, not 2");
  });
});

describe("FANDEMAND", () => {
  const settings = [...changes, ["volume", 500], ["indoor temperature", 20], ["outdoor temperature", 0]];
  const openings = [
    ["A", 10, 0.5, 20, 200],
    ["", "", "", "", ""],
    ["B", 30, 0.5, 20, 200],
  ];
  const cell = (table: unknown[][], symbol: string, place = 2) => table.find((row) => row[1] === symbol)?.[place];

  test("a table of fixed shape; without openings their rows are blank", () => {
    const table = fanDemand([[0.6]], [[60]], settings);
    expect(table).toHaveLength(13);
    expect(new Set(table.map((row) => String(row[1]).toLowerCase())).size).toBe(13);
    expect([cell(table, "opening_dep"), cell(table, "p_fan_pres")]).toEqual(["", ""]);
    expect(cell(table, "n", 0)).toBe("flow exponent, assumed");
    expect(placeOf(fanDemand([[0.6]], [[60]], settings, openings), 1)).toEqual(placeOf(table, 1));
  });

  test("none fits: says on which side", () => {
    const why = (target: number) => {
      const table = fanDemand([[target]], [[60]], settings, openings);
      expect([cell(table, "opening_dep"), cell(table, "p_fan_dep")]).toEqual(["none", ""]);
      return cell(table, "opening_dep", 0);
    };
    expect(why(6)).toMatch(/none: the flow lies above every range$/);
    expect(why(0.01)).toMatch(/none: the flow lies below every range$/);
    const gap = [
      ["A", 1, 0.5, 20, 200],
      ["B", 300, 0.5, 20, 200],
    ];
    const table = fanDemand([[0.6]], [[60]], settings, gap);
    expect(cell(table, "opening_dep", 0)).toMatch(/none: the flow lies between the ranges$/);
  });

  test("an opening half filled in, or wrong, names its row", () => {
    const message = (...row: unknown[]) => refusal(() => fanDemand([[0.6]], [[60]], settings, [openings[0]!, row]));
    expect(message("B", 30, 0.5, 20, "")).toEqual({
      code: "#N/A",
      message: "openings, row 2: the highest fan pressure is not given yet",
    });
    expect(message("", 30, 0.5, 20, 200).message).toBe("openings, row 2: an opening without its name");
    expect(message("B", -30, 0.5, 20, 200).message).toMatch(/^openings, row 2: must be above 0/);
    expect(message("B", 30, 5, 20, 200).message).toMatch(/^openings, row 2: above 0 and not more than 2/);
    expect(message("B", 30, 0.5, 300, 200).message).toMatch(/^openings, row 2: /);
    expect(refusal(() => fanDemand([[0.6]], [[60]], settings, [["A", 10, 0.5]])).message).toMatch(/five columns/);
    expect(refusal(() => fanDemand([[0.6]], [[60]], settings, [["", "", "", "", ""]])).code).toBe("#N/A");
  });

  test("missing and impossible settings are named as settings", () => {
    const message = (given: unknown[][]) => refusal(() => fanDemand([[0.6]], [[60]], given));
    expect(message(changes).message).toMatch(/^settings: volume: /);
    expect(message(settings.slice(0, 3)).message).toBe('settings: "outdoor temperature" is not given yet');
    expect(message([...settings.slice(0, 3), ["outdoor temperature", 500]]).message).toMatch(
      /^settings: outdoor temperature: /,
    );
    expect(refusal(() => fanDemand([[""]], [[60]], settings))).toEqual({
      code: "#N/A",
      message: "target: not given yet",
    });
    expect(refusal(() => fanDemand([[0.6]], [[-60]], settings)).message).toMatch(/^highest: must be above 0/);
  });
});

describe("STACKPRESSURE and WINDPRESSURE", () => {
  test("columns of temperatures; a blank gives a blank, 0 °C is a temperature, a slip of unit an error in its row", () => {
    const [first, blank, slip] = cellsOf(stackPressure([[8]], [[20]], column(0, "", 300)));
    expect(first).toBeCloseTo(-3.458, 3);
    expect(blank).toBe("");
    expect(errorIn(slip).message).toMatch(/^outdoor_temperature, row 3: .*did you type °F or K/);
  });

  test("a temperature below absolute zero names its argument in °F too, not the conversion's", () => {
    expect(refusal(() => stackPressure([[26]], [[68]], [[-500]], none, none, "IP")).message).toMatch(
      /^outdoor_temperature: /,
    );
    expect(refusal(() => airDensity([[-500]], none, none, "IP")).message).toMatch(/^temperature: /);
  });

  test("heights beyond the building are refused", () => {
    expect(refusal(() => stackPressure([[8]], [[20]], [[0]], [[9]])).message).toMatch(/^measuring_height: /);
    expect(refusal(() => stackPressure([[8]], [[20]], [[0]], none, [[40]])).message).toMatch(/^neutral_height: /);
    expect(cellsOf(stackPressure([[8]], [[20]], [[0]], [[0]], [[0]]))).toEqual([0]);
    expect(refusal(() => windPressure([[-3]])).message).toMatch(/^speed: /);
  });
});

describe("COMPONENTLEAKAGE", () => {
  test("a list with rows not used: no amount is none of it, an amount without its leakage is not yet enough", () => {
    const list = column(20, 0, "", null, 2);
    expect(componentLeakage(list, column(3, 9, 9, 9, 50), [[100]], none, [[100]])).toBe(160);
    expect(refusal(() => componentLeakage(list, column(3, 9, 9, 9, ""), [[100]]))).toEqual({
      code: "#N/A",
      message: "leakages, row 5: an amount without its leakage",
    });
    expect(refusal(() => componentLeakage(list, [[3]], column(100, 100, 100, 100, 0))).message).toBe(
      "rated_pressures, row 5: a leakage without its rated pressure",
    );
    expect(refusal(() => componentLeakage(column("", 0), [[3]], [[100]])).code).toBe("#N/A");
  });

  test("what is wrong names its row", () => {
    expect(refusal(() => componentLeakage(column(1, -2), [[3]], [[100]])).message).toBe(
      "amounts, row 2: must not be below 0 (got -2)",
    );
    expect(refusal(() => componentLeakage(column(1, 2), column(3, 4, 5), [[100]])).message).toMatch(
      /^leakages: 3 cells for 2 amounts/,
    );
    expect(refusal(() => componentLeakage([[1]], [[3]], [[100]], [[3]])).message).toMatch(/^exponents, row 1: /);
    expect(refusal(() => componentLeakage([[1]], [[3]], [[100]], none, [[-50]])).message).toMatch(/^at: /);
    expect(refusal(() => componentLeakage(column(1, "x"), [[3]], [[100]])).message).toMatch(
      /^amounts, row 2: a number/,
    );
  });
});

describe("AREAFLOW", () => {
  test("takes its definition by name and refuses terms that would be ignored", () => {
    expect(refusal(() => areaFlow([[15]], "", [[0.65]], [[50]])).code).toBe("#N/A");
    expect(refusal(() => areaFlow([[15]], "effective 4 Pa", [[0.65]], [[50]], [[10]])).message).toMatch(/^pressure: /);
    expect(refusal(() => areaFlow([[15]], "custom", [[0.65]], [[50]], [[50]])).message).toMatch(
      /^discharge_coefficient: /,
    );
    expect(refusal(() => areaFlow([[15]], "effective 4 Pa", [[6.5]], [[50]])).message).toMatch(/^exponent: /);
    expect(cellsOf(areaFlow(column(15, "", 0), "effective 4 Pa", [[0.65]], [[50]])).slice(1)).toEqual(["", ""]);
  });
});
