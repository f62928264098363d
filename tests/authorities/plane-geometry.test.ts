import { describe, expect, test } from "vitest";
import { envelopeSize, envelopeVolume, floorArea } from "../../src/functions";
import { expectAgreement } from "./support/compare";
import { column, numberOf } from "./support/sheet";

// Plane geometry: outlines against numerical integration of the roof's height, and plans against areas known without the shoelace rule.

type RoofHeight = (x: number, y: number) => number;

/** Height of the roof above the eaves over a point of the plan, x along the length, y across the width. */
function roofHeight(shape: string, length: number, width: number, rise: number): RoofHeight {
  const pitch = rise / (Math.min(length, width) / 2);
  switch (shape) {
    case "gable":
      return (_, y) => (rise * Math.min(y, width - y)) / (width / 2);
    case "mono-pitch":
      return (_, y) => (rise * y) / width;
    case "hip":
      return (x, y) => pitch * Math.min(x, length - x, y, width - y);
    default:
      return () => 0;
  }
}

const GRID = 400;

/** Volume and sloped area of a roof by the mean over a fine grid; faces are planes, so a cell is wrong only where a ridge or hip crosses it. */
function integrate(height: RoofHeight, length: number, width: number): { volume: number; slopes: number } {
  const [dx, dy] = [length / GRID, width / GRID];
  const step = 1e-6;
  let [volume, slopes] = [0, 0];
  for (let i = 0; i < GRID; i += 1) {
    for (let j = 0; j < GRID; j += 1) {
      // Off the middle of the cell, so that no point lies on a ridge, where the slope has no value.
      const [x, y] = [(i + 0.499) * dx, (j + 0.497) * dy];
      const slopeX = (height(x + step, y) - height(x - step, y)) / (2 * step);
      const slopeY = (height(x, y + step) - height(x, y - step)) / (2 * step);
      volume += height((i + 0.5) * dx, (j + 0.5) * dy) * dx * dy;
      slopes += Math.sqrt(1 + slopeX ** 2 + slopeY ** 2) * dx * dy;
    }
  }
  return { volume, slopes };
}

describe("ENVELOPESIZE against numerical integration", () => {
  const outlines = [
    { length: 12, width: 8, storeys: 2, height: 2.7, rise: 3.1 },
    { length: 7, width: 9.5, storeys: 1, height: 3, rise: 1.4 },
    { length: 6, width: 6, storeys: 3, height: 2.6, rise: 4 },
  ];
  const shapes = ["flat", "gable", "hip", "mono-pitch"];

  test.each(outlines.flatMap((outline) => shapes.map((shape) => ({ ...outline, shape }))))(
    "$shape roof on $length × $width",
    ({ length, width, storeys, height, rise, shape }) => {
      const roof = integrate(roofHeight(shape, length, width, rise), length, width);
      const vertical = { gable: width * rise, "mono-pitch": (length + width) * rise }[shape] ?? 0;
      const given = shape === "flat" ? null : rise;
      const [cells] = envelopeSize([[length]], [[width]], [[storeys]], [[height]], [[shape]], [[given]]);
      const [volume, envelope, floor] = (cells ?? []).map(numberOf);
      const walls = 2 * (length + width) * storeys * height;
      const because = "a grid of 400 by 400, wrong in the cells that a ridge or hip crosses";
      expectAgreement(volume ?? NaN, length * width * storeys * height + roof.volume, 1e-5, because);
      expectAgreement(envelope ?? NaN, length * width + walls + roof.slopes + vertical, 1e-4, because);
      expectAgreement(floor ?? NaN, length * width * storeys, 1e-15, "a product");
    },
  );

  test("a hip over a square is a pyramid: a third of base times height", () => {
    const [cells] = envelopeSize([[6]], [[6]], [[1]], [[3]], [["hip"]], [[2]]);
    expectAgreement(numberOf(cells?.[0]) - 6 * 6 * 3, (6 * 6 * 2) / 3, 1e-14, "one subtraction");
  });
});

describe("FLOORAREA", () => {
  test("an L of two rectangles, listed in either sense", () => {
    const corners = [
      [0, 0],
      [8, 0],
      [8, 3],
      [5, 3],
      [5, 9],
      [0, 9],
    ];
    expect(floorArea(corners)).toBe(8 * 3 + 5 * 6);
    expect(floorArea([[0, 0], ...corners.slice(1).reverse()])).toBe(54);
  });

  test("a regular polygon of 360 corners is nearly its circle: r²·(360/2)·sin 1°", () => {
    const corners = Array.from({ length: 360 }, (_, index) => {
      const angle = (index * Math.PI) / 180;
      return [100 + 5 * Math.cos(angle), -40 + 5 * Math.sin(angle)];
    });
    expectAgreement(floorArea(corners), 25 * 180 * Math.sin(Math.PI / 180), 1e-12, "corners at 100 m lose two digits");
  });

  test("blank rows at the end, however a host sends them, change nothing", () => {
    const plan = [
      [1, 1],
      [7, 1],
      [7, 5],
      [1, 5],
    ];
    for (const blank of [null, "", 0]) expect(floorArea([...plan, [blank, blank], [blank, blank]])).toBe(24);
  });

  test("corners out of order, whose walls cross, are an error and not a small area", () => {
    const crossed = [
      [0, 0],
      [4, 3],
      [4, 0],
      [0, 3],
    ];
    expect(() => floorArea(crossed)).toThrow(expect.objectContaining({ code: "#VALUE!" }));
  });
});

test("ENVELOPEVOLUME: rooms less a void, and a tolerance of 2 cm on every length of one room", () => {
  expect(envelopeVolume(column([40, 25, -6]), column([2.5, 3, 2.5]))).toEqual([[160]]);
  const [cells] = envelopeVolume([[16]], [[2.5]], [[0.02]], "room by room");
  const u = 0.02 / Math.sqrt(3);
  const expected = Math.hypot(4 * 2.5 * u, 4 * 2.5 * u, 16 * u);
  expect(cells?.[2]).toBe("room by room");
  expectAgreement(numberOf(cells?.[1]), expected, 1e-14, "JCGM 100 5.1.2 for a square room of 4 by 4 by 2.5 m");
});
