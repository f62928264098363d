import { describe, expect, test } from "vitest";
import {
  airChangeRate,
  airDensity,
  convertUnits,
  densityCorrection,
  envelopeSize,
  envelopeVolume,
  floorArea,
  leakageArea,
  leakageFlow,
  methodVersion,
} from "../../src/functions";
import packageFile from "../../package.json" with { type: "json" };
import { cellsOf, column, errorIn, refusal } from "./errors";

describe("cell by cell", () => {
  test("a column, a row and a single value go together like in Excel's own arithmetic", () => {
    const grid = leakageFlow([[10]], [[0.5]], [[4, 9]]);
    expect(grid).toEqual([[20, 30]]);
    expect(airChangeRate(column(100, 200), [[50, 100]])).toEqual([
      [2, 1],
      [4, 2],
    ]);
  });

  test("ranges of unlike size are refused, naming both", () => {
    expect(refusal(() => airChangeRate(column(1, 2, 3), column(1, 2))).message).toBe(
      "volume: 2 rows for 3 of flow: the numbers must match",
    );
  });

  test("a blank row gives a blank, never 0", () => {
    expect(airChangeRate(column(100, "", null, 0), [[50]])).toEqual([[2], [""], [""], [""]]);
    expect(envelopeSize(column(10, ""), column(8, ""), [[2]], [[2.8]])[1]).toEqual(["", "", ""]);
  });

  test("a number outside its physical range says what may have been typed", () => {
    expect(refusal(() => airDensity([[20]], [[1013]])).message).toMatch(/^barometric_pressure: .*did you type hPa\?/);
    expect(refusal(() => airDensity([[20]], undefined, [[50]])).message).toMatch(
      /^relative_humidity: a fraction.*0.5 for 50 %/,
    );
    const [, second] = cellsOf(airDensity(column(20, 293)));
    expect(errorIn(second).message).toMatch(/^temperature, row 2: .*did you type °F or K\?/);
    expect(refusal(() => densityCorrection("pressurization", [[21]], [[99]])).message).toMatch(
      /^outdoor_temperature: /,
    );
  });

  test("numbers too large to calculate with are an error, never 0 or NaN", () => {
    expect(refusal(() => leakageFlow([[1e308]], [[1.5]], [[1e10]])).message).toMatch(/too large/);
  });

  test("words in any letter case and either spelling; another word lists the known ones", () => {
    expect(densityCorrection("Depressurisation", [[20]], [[20]])).toEqual([[1]]);
    expect(refusal(() => densityCorrection("both", [[20]], [[20]])).message).toBe(
      'direction: "both" is not one of: depressurization, pressurization',
    );
    expect(refusal(() => densityCorrection("", [[20]], [[20]])).code).toBe("#N/A");
  });
});

describe("envelope", () => {
  test("trailing zeros are blank cells, a closed outline is the same outline", () => {
    const room = [
      [0, 0],
      [5, 0],
      [5, 4],
      [0, 4],
    ];
    expect(floorArea(room)).toBe(20);
    expect(floorArea([...room, [0, 0], ["", ""], [0, 0]])).toBe(20);
    const [first, ...others] = room;
    expect(floorArea([first!, ...others.reverse()])).toBe(20);
  });

  test("a last corner at the origin is never dropped silently", () => {
    const originLast = [
      [0, 3],
      [4, 3],
      [4, 0],
      [0, 0],
    ];
    expect(refusal(() => floorArea(originLast)).message).toMatch(
      /^corners, row 4: 0, 0 could be a corner or a blank row/,
    );
    // A host that shows blanks as blanks tells that these zeros were typed.
    expect(floorArea([...originLast, ["", ""]])).toBe(12);
    expect(floorArea([[0, 0], ...originLast.slice(0, 3)])).toBe(12);
  });

  test("walls that cross are an error, not a wrong area", () => {
    expect(
      refusal(() =>
        floorArea([
          [0, 0],
          [4, 3],
          [4, 0],
          [0, 3],
        ]),
      ).message,
    ).toMatch(/^corners: wall 1 meets wall 3/);
  });

  test.each([
    [
      "a blank row inside, sent as zeros",
      [
        [0, 0],
        [5, 0],
        [0, 0],
        [5, 4],
        [0, 4],
      ],
      /corner 3 coincides with corner 1/,
    ],
    [
      "loops that meet in a corner",
      [
        [0, 0],
        [2, 2],
        [6, 6],
        [6, -2],
        [2, 2],
        [0, 4],
      ],
      /corner 5 coincides with corner 2/,
    ],
    [
      "an outline gone round twice",
      [
        [0, 0],
        [4, 0],
        [4, 4],
        [0, 4],
        [0, 0],
        [4, 0],
        [4, 4],
        [0, 4],
      ],
      /coincides with/,
    ],
    [
      "a corner on another wall",
      [
        [0, 0],
        [4, 0],
        [4, 4],
        [2, 0],
        [0, 4],
      ],
      /meets wall/,
    ],
    [
      "a wall that turns back on itself",
      [
        [0, 0],
        [4, 0],
        [2, 0],
        [2, 4],
      ],
      /turns back on itself|meets wall/,
    ],
  ])("%s is refused", (_, corners, message) => {
    expect(refusal(() => floorArea(corners)).message).toMatch(message);
  });

  test("the convention and the uncertainty travel with the volume", () => {
    expect(envelopeVolume(column(50, -2), [[2.5]])).toEqual([[120]]);
    expect(envelopeVolume(column(50), [[2.5]], undefined, "Room by room")).toEqual([[125, "", "room by room"]]);
    const [[volume, uncertainty, convention]] = envelopeVolume([[100]], [[3]], [[0.01]]) as [[number, number, string]];
    // JCGM 100 5.1.2 by hand: u = 0.01/√3; u²(V) = (2·100·3² + 100²)·u².
    expect([volume, convention]).toEqual([300, ""]);
    expect(uncertainty / Math.sqrt((1800 + 10000) * (0.0001 / 3))).toBeCloseTo(1, 12);
  });

  test("one height for all is one measurement, a height beside each area one each", () => {
    const of = (heights: unknown[][]) => envelopeVolume(column(30, 20), heights, [[0.02]])[0]![1] as number;
    expect(of([[2.5]])).toBeCloseTo(0.6454972243679, 12);
    expect(of(column(2.5, 2.5))).toBeCloseTo(0.506622805119, 12);
  });

  test("an area without its height is missing, a height below 0 is wrong", () => {
    expect(refusal(() => envelopeVolume(column(50, 40), column(2.5, "")))).toEqual({
      code: "#N/A",
      message: "heights, row 2: an area without its height",
    });
    expect(refusal(() => envelopeVolume(column(50), column(-2.5))).message).toMatch(
      /^heights, row 1: must be above 0 \(got -2.5\)/,
    );
  });
});

describe("one value where one is taken", () => {
  test("a range is refused, not read in part", () => {
    expect(refusal(() => envelopeVolume([[100]], [[2.5]], column(0.01, 0.5))).message).toBe(
      "length_tolerance: one cell is needed, not 2",
    );
    expect(refusal(() => leakageArea([[20]], [[0.65]], "custom", column(4, 10), [[1]])).message).toMatch(
      /^pressure: one cell/,
    );
  });

  test("0 is a blank tolerance: both conventions give the same shape", () => {
    expect(envelopeVolume([[100]], [[2.5]], [[0]])).toEqual(envelopeVolume([[100]], [[2.5]], [[""]]));
  });
});

describe("leakage area", () => {
  test("a definition must be named, and fixes its own pressure and discharge coefficient", () => {
    expect(refusal(() => leakageArea([[20]], [[0.65]], ""))).toEqual({
      code: "#N/A",
      message: "definition: not given yet; one of effective 4 Pa, ISO 9972 10 Pa, equivalent 10 Pa, custom",
    });
    expect(refusal(() => leakageArea([[20]], [[0.65]], "effective 4 Pa", [[10]])).message).toMatch(
      /^pressure: "effective 4 Pa" fixes it at 4/,
    );
    expect(leakageArea([[20]], [[0.65]], "custom", [[10]], [[0.611]])).toEqual(
      leakageArea([[20]], [[0.65]], "equivalent 10 Pa"),
    );
  });
});

describe("units and version", () => {
  test("units of different quantities do not convert; inches of water carry their temperature", () => {
    expect(refusal(() => convertUnits([[1]], "cfm", "Pa")).message).toMatch(
      /^to: cfm is a unit of flow, Pa of pressure/,
    );
    expect(refusal(() => convertUnits([[1]], "inH2O", "Pa")).message).toMatch(
      /unknown unit "inH2O"; did you mean .*"inH2O 4 °C".*\?$/,
    );
    expect(convertUnits([[36]], "m3/h", "L/s")[0]![0]).toBeCloseTo(10, 12);
  });

  test("the method's version is the package's", () => {
    expect(methodVersion()).toBe(packageFile.version);
  });

  test.each([[[["pass"]]], [column(0.5, "", null)], [[[{ type: "Error", basicValue: "#N/A" }]]]])(
    "the version follows a cell of the results, whatever it holds: %j",
    (of) => expect(methodVersion(of)).toBe(packageFile.version),
  );
});
