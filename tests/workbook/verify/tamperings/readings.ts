import { filled, type Spot, type Tampered } from "../tampered";
import type { Tampering } from "./tampering";

const numberAt = (workbook: Tampered, spot: Spot): number => {
  const value = workbook.value(spot);
  if (typeof value !== "number") throw new Error(`no number in ${spot.join("!")}`);
  return value;
};

/** Every figure of some cells, changed. */
function change(workbook: Tampered, spots: readonly Spot[], to: (value: number, index: number) => number): void {
  spots.forEach((spot, index) => {
    const [old, changed] = [numberAt(workbook, spot), to(numberAt(workbook, spot), index)];
    if (changed !== old) workbook.put(spot, changed);
  });
}

const sheetPattern = (sheet: string): RegExp => new RegExp(`^${sheet}!`);

/** The flow column as typed figures in another unit, in place of the call that computes it. */
function typedFlows(workbook: Tampered, direction: "depressurization" | "pressurization", factor: number): Spot[] {
  const { sheet, flows } = workbook.test(direction);
  const spots = filled(workbook, sheet, flows);
  const figures = spots.map((spot) => Math.round(numberAt(workbook, spot) * factor * 100) / 100);
  spots.forEach((spot, index) => workbook.put(spot, figures[index]!));
  return spots;
}

/** Signs, units and origins of readings. */
export const readings: readonly Tampering[] = [
  {
    what: "unsigned readings in a depressurization",
    kind: "sign of the readings",
    plant(workbook) {
      const { sheet, pressures } = workbook.test("depressurization");
      change(workbook, filled(workbook, sheet, pressures), Math.abs);
      return sheetPattern(sheet);
    },
  },
  {
    what: "one reading that lost its sign",
    kind: "sign of the readings",
    plant(workbook) {
      const { sheet, pressures } = workbook.test("depressurization");
      const spot = filled(workbook, sheet, pressures)[3]!;
      change(workbook, [spot], Math.abs);
      return spot;
    },
  },
  {
    what: "the readings of the two directions changed places",
    kind: "swapped directions",
    plant(workbook) {
      const [down, up] = [workbook.test("depressurization"), workbook.test("pressurization")];
      const [ofDown, ofUp] = [down, up].map(({ sheet, pressures }) => filled(workbook, sheet, pressures));
      const [downFigures, upFigures] = [ofDown!, ofUp!].map((spots) => spots.map((spot) => numberAt(workbook, spot)));
      ofDown!.forEach((spot, index) => workbook.put(spot, upFigures![index] ?? 10 + index));
      ofUp!.forEach((spot, index) => workbook.put(spot, downFigures![index]!));
      return sheetPattern(down.sheet);
    },
  },
  {
    what: "flows in cfm typed into a column of m³/h",
    kind: "flow unit",
    plant(workbook) {
      typedFlows(workbook, "depressurization", 1 / 1.699010796);
      return sheetPattern("Depressurization");
    },
  },
  {
    what: "flows of one direction in L/s, the calibration taken away",
    kind: "flow unit",
    plant(workbook) {
      typedFlows(workbook, "pressurization", 1 / 3.6);
      const { sheet, fanPressures } = workbook.test("pressurization");
      for (const spot of filled(workbook, sheet, fanPressures)) workbook.put(spot, null);
      return sheetPattern(sheet);
    },
  },
  {
    what: "a flow basis that the flow column does not have",
    kind: "flow basis",
    plant(workbook) {
      const spot = workbook.setting(workbook.test("depressurization"), "flow basis");
      workbook.put(spot, "through the envelope");
      return spot;
    },
  },
  {
    what: "a baseline that lost its sign after the test",
    kind: "sign of the baseline",
    plant(workbook) {
      const { sheet, after } = workbook.test("depressurization");
      change(workbook, filled(workbook, sheet, after), Math.abs);
      return sheetPattern(sheet);
    },
  },
  {
    what: "a baseline of one direction with the wrong sign throughout",
    kind: "sign of the baseline",
    plant(workbook) {
      const { sheet, before, after } = workbook.test("pressurization");
      change(workbook, [...filled(workbook, sheet, before), ...filled(workbook, sheet, after)], Math.abs);
      return sheetPattern(sheet);
    },
  },
  {
    what: "readings copied from the other direction",
    kind: "copied readings",
    plant(workbook) {
      const [down, up] = [workbook.test("depressurization"), workbook.test("pressurization")];
      const pairs: (readonly [from: Spot[], to: Spot[], sign: 1 | -1])[] = [
        [filled(workbook, down.sheet, down.pressures), filled(workbook, up.sheet, up.pressures), -1],
        [filled(workbook, down.sheet, down.fanPressures), filled(workbook, up.sheet, up.fanPressures), 1],
      ];
      for (const [from, to, sign] of pairs) change(workbook, to, (_, index) => sign * numberAt(workbook, from[index]!));
      return sheetPattern(up.sheet);
    },
  },
  {
    what: "the baseline after the test copied from the one before",
    kind: "copied readings",
    plant(workbook) {
      const { sheet, before, after } = workbook.test("depressurization");
      const from = filled(workbook, sheet, before);
      change(workbook, filled(workbook, sheet, after), (_, index) => numberAt(workbook, from[index]!));
      return sheetPattern(sheet);
    },
  },
  {
    what: "readings computed from a line",
    kind: "readings implausibly smooth",
    plant(workbook) {
      const { sheet, pressures, before, after } = workbook.test("depressurization");
      for (const area of [before, after]) change(workbook, filled(workbook, sheet, area), () => -1.5);
      const spots = filled(workbook, sheet, pressures);
      const { flows } = workbook.test("depressurization");
      const through = filled(workbook, sheet, flows).map((spot) => numberAt(workbook, spot));
      change(workbook, spots, (_, index) => -((through[index]! / 14) ** (1 / 0.66)) - 1.5);
      return sheetPattern(sheet);
    },
  },
  {
    what: "a reading pasted as text",
    kind: "number as text",
    plant(workbook) {
      const { sheet, fanPressures } = workbook.test("depressurization");
      const spot = filled(workbook, sheet, fanPressures)[2]!;
      workbook.put(spot, String(numberAt(workbook, spot)));
      return spot;
    },
  },
  {
    what: "a length of a room typed with a decimal comma, as text",
    kind: "number as text",
    plant(workbook) {
      const spot = workbook.beside(workbook.find(/^Bedroom 2$/, "Rooms"), 2);
      workbook.put(spot, "3,25");
      return spot;
    },
  },
  {
    what: "a reading excluded without a reason",
    kind: "excluded without a reason",
    plant(workbook) {
      const { sheet, include } = workbook.test("pressurization");
      const spot: Spot = workbook.beside([sheet, workbook.find(/^yes$/, sheet)[1]], 0, 4);
      if (include.bottom <= include.top) throw new Error("no marks");
      workbook.put(spot, "no");
      return spot;
    },
  },
  {
    what: "a reading excluded by FALSE, without a reason",
    kind: "excluded without a reason",
    plant(workbook) {
      const { sheet } = workbook.test("pressurization");
      const spot: Spot = workbook.beside([sheet, workbook.find(/^yes$/, sheet)[1]], 0, 4);
      workbook.cell(spot, (style) => `<c r="${spot[1]}"${style} t="b"><v>0</v></c>`);
      return spot;
    },
  },
  {
    what: "the barometer in hPa",
    kind: "barometer unit",
    plant(workbook) {
      const [sheet, row] = workbook.find(/^Barometric pressure on site$/, "Depressurization");
      const spot = workbook.beside([sheet, row], 4);
      change(workbook, [spot], (value) => value / 100);
      return spot;
    },
  },
  {
    what: "temperatures in °F",
    kind: "temperature unit",
    plant(workbook) {
      const spot = workbook.beside(workbook.find(/^Temperature indoors$/, "Depressurization"), 4);
      change(workbook, [spot, workbook.beside(spot, 1)], (value) => value * 1.8 + 32);
      return spot;
    },
  },
  {
    what: "humidity in per cent",
    kind: "humidity unit",
    plant(workbook) {
      const spot = workbook.beside(workbook.find(/^Relative humidity indoors$/, "Pressurization"), 4);
      change(workbook, [spot], (value) => value * 100);
      return spot;
    },
  },
  {
    what: "an envelope area that cannot hold the volume",
    kind: "size unit",
    plant(workbook) {
      const area = workbook.named("EnvelopeArea");
      workbook.put(area, 120.5);
      return /envelope area|!AI\d+|!/;
    },
  },
  {
    what: "a calibration certificate that ran out before the test",
    kind: "certificate date",
    plant(workbook) {
      const spot = workbook.beside(workbook.find(/^Envelope pressure gauge$/, "Firm"), 6);
      workbook.put(spot, numberAt(workbook, workbook.named("TestDate")) - 20);
      return spot;
    },
  },
  {
    what: "a calibration made after the test",
    kind: "certificate date",
    plant(workbook) {
      const spot = workbook.beside(workbook.find(/^Flow device$/, "Firm"), 5);
      workbook.put(spot, numberAt(workbook, workbook.named("TestDate")) + 9);
      return spot;
    },
  },
];
