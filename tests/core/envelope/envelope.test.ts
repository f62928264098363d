import { describe, expect, test } from "vitest";
import { envelopeSize, envelopeVolume, floorArea, type Corner } from "../../../src/core";
import { refuses, takes } from "../refusals";

const plan = (...corners: (readonly [number, number])[]): Corner[] => corners.map(([x, y]) => ({ x, y }));
const house = { length: 10, width: 8, storeys: 2, storeyHeight: 2.5, roofShape: "flat", roofRise: 0 } as const;

describe("corners of a plan", () => {
  refuses("missing", [
    ["corners: tooFew", () => floorArea([]), { least: 3, of: "corners", count: 0 }],
    ["corners: tooFew", () => floorArea(plan([0, 0], [4, 0])), { least: 3, of: "corners", count: 2 }],
  ]);
  refuses("invalid", [
    ["corners: sameCorner", () => floorArea(plan([0, 0], [4, 0], [4, 3], [4, 0], [0, 3])), { corner: 4, other: 2 }],
    ["corners: sameCorner", () => floorArea(plan([0, 0], [4, 0], [0, 0])), { corner: 3, other: 1 }],
    ["corners: wallsMeet", () => floorArea(plan([0, 0], [4, 4], [4, 0], [0, 4])), { wall: 1, other: 3 }],
    // The last wall, from corner 5 back to corner 1, runs through the second.
    ["corners: wallsMeet", () => floorArea(plan([0, 0], [6, 0], [2, 4], [2, 6], [8, 2])), { wall: 2, other: 5 }],
    ["corners: wallTurnsBack", () => floorArea(plan([0, 0], [4, 0], [2, 0])), { corner: 2 }],
    ["corners: wallTurnsBack", () => floorArea(plan([0, 0], [4, 0], [-1, 0], [-1, 3])), { corner: 2 }],
    ["corners: wallTurnsBack", () => floorArea(plan([0, 0], [3, 0], [6, 0])), { corner: 3 }],
  ]);

  refuses("invalid", [
    // The second wall runs back onto the first, the third starts there.
    ["corners: wallsMeet", () => floorArea(plan([0, 0], [4, 0], [2, 0], [2, 3])), { wall: 1, other: 3 }],
    // So near together that the area is less than the least number.
    ["corners: cornersOnLine", () => floorArea(plan([0, 0], [1e-165, 0], [1e-165, 1e-165], [0, 1e-165]))],
  ]);

  test("a corner beside a slanted wall does not stand on it, whichever corner is the first and whichever way round", () => {
    const corners = plan([0, 0], [6, 6], [6, 0], [4, 1]);
    for (const way of [corners, [...corners].reverse()]) {
      for (let first = 0; first < 4; first++) {
        expect(floorArea([...way.slice(first), ...way.slice(0, first)])).toBe(15);
      }
    }
  });

  describe("a corner that stands on another wall, at each of the four ends of two walls", () => {
    const touching = (corners: readonly (readonly [number, number])[]) => () => floorArea(plan(...corners));
    refuses("invalid", [
      // Corner 4 lies on wall 1: the third wall ends there, then the fourth starts there.
      [
        "corners: wallsMeet",
        touching([
          [0, 0],
          [6, 0],
          [6, 4],
          [3, 0],
          [0, 4],
        ]),
        { wall: 1, other: 3 },
      ],
      [
        "corners: wallsMeet",
        touching([
          [0, 0],
          [0, 6],
          [4, 6],
          [0, 3],
          [4, 0],
        ]),
        { wall: 1, other: 3 },
      ],
      // Corner 1 and corner 2 lie on wall 3.
      [
        "corners: wallsMeet",
        touching([
          [3, 0],
          [3, 4],
          [0, 0],
          [6, 0],
          [6, 4],
        ]),
        { wall: 1, other: 3 },
      ],
      [
        "corners: wallsMeet",
        touching([
          [3, 4],
          [3, 0],
          [0, 0],
          [6, 0],
          [6, 4],
        ]),
        { wall: 1, other: 3 },
      ],
    ]);
  });

  test("walls that would only meet if they were longer do not count", () => {
    // A comb: the ends of its teeth lie in line with each other and with the back's corners.
    const comb = plan([0, 0], [10, 0], [10, 4], [8, 4], [8, 2], [6, 2], [6, 4], [4, 4], [4, 2], [2, 2], [2, 4], [0, 4]);
    expect(floorArea(comb)).toBe(10 * 2 + 3 * 2 * 2);
    // The same comb lying on its side.
    expect(floorArea(comb.map(({ x, y }) => ({ x: y, y: x })))).toBe(32);
    // A notch whose point stays clear of the opposite wall, on all four sides.
    const notched = plan([0, 0], [6, 0], [6, 6], [3, 1], [0, 6]);
    for (const turned of [
      notched,
      notched.map(({ x, y }) => ({ x: y, y: x })),
      notched.map(({ x, y }) => ({ x: -x, y: -y })),
      notched.map(({ x, y }) => ({ x: -y, y: -x })),
    ]) {
      expect(floorArea(turned)).toBeCloseTo(6 * 6 - (6 * 5) / 2, 12);
    }
  });

  test("a corner in the middle of a straight wall changes nothing, not even at the first corner", () => {
    expect(floorArea(plan([2, 0], [4, 0], [4, 3], [0, 3], [0, 0]))).toBe(12);
    expect(floorArea(plan([0, 0], [2, 0], [4, 0], [4, 3], [0, 3]))).toBe(12);
  });

  test("an outline may be closed by its first corner, more than once as well", () => {
    const corners = plan([0, 0], [4, 0], [4, 3]);
    expect(floorArea([...corners, corners[0]!])).toBe(6);
    expect(floorArea([...corners, corners[0]!, corners[0]!])).toBe(6);
  });

  refuses("missing", [["corners: tooFew", () => floorArea(plan([1, 2])), { least: 3, of: "corners", count: 1 }]]);
});

describe("volume", () => {
  const room = { area: 20, height: 2.5 };
  refuses("missing", [["areas: notGiven", () => envelopeVolume([])]]);
  refuses("invalid", [
    ["length tolerance: lengthTolerance", () => envelopeVolume([room], -0.01)],
    ["length tolerance: lengthTolerance", () => envelopeVolume([room], 10)],
    ["areas: noVolumeLeft", () => envelopeVolume([room, { area: -20, height: 2.5 }])],
  ]);

  test("a tolerance of 0 is none", () => {
    expect(envelopeVolume([room], 0)).toEqual({ volume: 50, standardUncertainty: 0 });
  });

  test("deductions lessen the volume and add to its uncertainty (JCGM 100:2008 5.1.2, by hand)", () => {
    const { volume, standardUncertainty } = envelopeVolume([room, { area: -2, height: 2 }], 0.03);
    expect(volume).toBe(46);
    // u² = 0.03²/3 for each length: 2·20·2.5² + 20² = 650 and 2·2·2² + 2² = 20 times it.
    expect(standardUncertainty).toBeCloseTo(Math.sqrt((650 + 20) * 0.0003), 12);
  });

  test("one height for all spaces is one measurement: its error is common to them (JCGM 100:2008 5.1.2, V = h·ΣA, by hand)", () => {
    const spaces = [30, 20, -4].map((area) => ({ area, height: 2.5 }));
    const { standardUncertainty } = envelopeVolume(spaces, 0.02, true);
    // 2·2.5²·(30 + 20 + 4) = 675 for the sides, (30 + 20 − 4)² = 2116 for the height, times 0.02²/3.
    expect(standardUncertainty).toBeCloseTo(Math.sqrt((675 + 2116) * (0.0004 / 3)), 12);
    expect(envelopeVolume([room], 0.02, true)).toEqual(envelopeVolume([room], 0.02));
  });
});

describe("size of an outline", () => {
  refuses("invalid", [
    ["length: aboveZero", () => envelopeSize({ ...house, length: 0 }), { got: 0 }],
    ["width: aboveZero", () => envelopeSize({ ...house, width: -8 }), { got: -8 }],
    ["storeys: aboveZero", () => envelopeSize({ ...house, storeys: 0 }), { got: 0 }],
    ["storey height: aboveZero", () => envelopeSize({ ...house, storeyHeight: NaN }), { got: NaN }],
    ["length: aboveZero", () => envelopeSize({ ...house, length: Infinity }), { got: Infinity }],
    ["roof rise: flatRoofRises", () => envelopeSize({ ...house, roofRise: 1 })],
    ["roof rise: noRoofRise", () => envelopeSize({ ...house, roofShape: "gable", roofRise: 0 }), { roof: "gable" }],
    ["roof rise: noRoofRise", () => envelopeSize({ ...house, roofShape: "hip", roofRise: Infinity }), { roof: "hip" }],
  ]);
  takes([["a low rise", () => envelopeSize({ ...house, roofShape: "mono-pitch", roofRise: 0.01 })]]);

  test("by hand: 10 m × 8 m, two storeys of 2.5 m, each roof rising 3 m", () => {
    const walls = 2 * 80 + 2 * (10 + 8) * 5 - 80;
    const size = (roofShape: "flat" | "gable" | "hip" | "mono-pitch") =>
      envelopeSize({ ...house, roofShape, roofRise: roofShape === "flat" ? 0 : 3 });
    expect(size("flat")).toEqual({ volume: 400, envelopeArea: walls + 80, floorArea: 160 });
    // Rafters of 5 m on a half width of 4 m; two triangles of 8 m × 3 m / 2.
    expect(size("gable")).toEqual({ volume: 400 + 120, envelopeArea: walls + 2 * 10 * 5 + 24, floorArea: 160 });
    const pitch = size("mono-pitch");
    expect(pitch.volume).toBe(520);
    // One slope of √(8² + 3²) m, one high wall of 10 m × 3 m, two triangles.
    expect(pitch.envelopeArea).toBeCloseTo(walls + 10 * Math.sqrt(73) + 30 + 24, 10);
    // A hip of one pitch: a ridge of 2 m; a prism of 2 m and a pyramid on 8 m × 8 m.
    const hip = size("hip");
    expect(hip.volume).toBeCloseTo(400 + (2 * 8 * 3) / 2 + (64 * 3) / 3, 10);
    expect(hip.envelopeArea).toBeCloseTo(walls + 80 * (5 / 4), 10);
    // Whichever side is called the length.
    const turned = envelopeSize({ ...house, length: 8, width: 10, roofShape: "hip", roofRise: 3 });
    expect(turned.volume).toBeCloseTo(hip.volume, 10);
    expect(turned.envelopeArea).toBeCloseTo(hip.envelopeArea, 10);
  });
});
