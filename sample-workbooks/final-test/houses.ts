import { firm, trade } from "../blocks/heading";
import { daySerial } from "../blocks/style";
import { inchPound, inUnit, metric, type Units } from "../blocks/units";
import type { DirectionReadings, Scenario } from "./scenario";

/** Readings are invented, rounded as the gauges would show them; both directions of one house within one hour. */

export const depressurization: DirectionReadings = {
  indoorTemperature: [20.4, 20.6],
  outdoorTemperature: [6.9, 7.3],
  indoorHumidity: 0.46,
  outdoorHumidity: 0.82,
  barometer: 100_640,
  wind: 1.6,
  baselineBefore: [-1.4, -1.6, -2.0, -1.4, -1.2, -1.4, -1.8, -1.5, -1.8, -1.3],
  baselineAfter: [-1.3, -1.7, -2.2, -2.4, -1.5, -2.1, -2.2, -1.7, -1.5, -1.6],
  readings: [
    [-66.0, "C", 282.7],
    [-61.2, "C", 252.3],
    [-57.4, "C", 235.9],
    [-50.4, "C", 194.4],
    [-46.2, "C", 173.7],
    [-40.2, "C", 141.1],
    [-33.5, "C", 111.4],
    [-27.6, "C", 84.7],
    [-20.7, "C", 57.3],
    [-14.9, "C", 34.8],
  ],
};

/** The same direction once more, with a reading that a gust spoilt. */
export const secondDepressurization: DirectionReadings = {
  indoorTemperature: [20.5, 20.4],
  outdoorTemperature: [7.8, 8.0],
  indoorHumidity: 0.46,
  outdoorHumidity: 0.79,
  barometer: 100_610,
  wind: 2.1,
  baselineBefore: [-1.2, -1.5, -1.7, -1.3, -1.4, -1.6, -1.5, -1.2, -1.4, -1.5],
  baselineAfter: [-1.4, -1.6, -1.3, -1.7, -1.8, -1.5, -1.4, -1.3, -1.6, -1.5],
  readings: [
    [-64.0, "C", 277.2],
    [-57.6, "C", 239.5],
    [-50.9, "C", 203.4],
    [-44.7, "C", 171.3],
    [-38.8, "C", 152.9, "gust; repeated below"],
    [-38.6, "C", 139.9],
    [-32.1, "C", 108.4],
    [-26.3, "C", 81.8],
    [-20.4, "C", 57.7],
    [-14.9, "C", 36.6],
  ],
};

export const pressurization: DirectionReadings = {
  indoorTemperature: [20.6, 20.6],
  outdoorTemperature: [7.4, 7.8],
  indoorHumidity: 0.46,
  outdoorHumidity: 0.8,
  barometer: 100_620,
  wind: 1.9,
  baselineBefore: [-0.8, -1.7, -2.0, -1.2, -1.6, -1.7, -1.6, -1.5, -1.8, -1.6],
  baselineAfter: [-1.3, -1.0, -1.7, -1.2, -1.3, -1.2, -1.3, -1.5, -1.3, -0.9],
  readings: [
    [61.7, "C", 215.6],
    [57.4, "C", 193.4],
    [49.6, "C", 166.1],
    [43.9, "C", 142.2],
    [38.4, "C", 118.3],
    [31.9, "C", 95.5],
    [25.2, "C", 71.3],
    [18.7, "C", 49.8],
    [11.8, "C", 29.2],
  ],
};

const wholeStorey = [
  [0, 0],
  [10.6, 0],
  [10.6, 5.2],
  [7.2, 5.2],
  [7.2, 8.4],
  [0, 8.4],
] as const;

/** The house of the metric workbook: depressurized twice, pressurized once. */
export const larchHouse: Scenario = {
  file: "final-test.xlsx",
  units: metric,
  firm: {
    name: firm,
    trade,
    address: "2 Cormorant Steps, Tern’s End, Isle of Ought",
    contact: "tests@quince-and-plover.example",
  },
  house: {
    name: "Larch House",
    address: "7 Saltmarsh Lane, Tern’s End, Isle of Ought",
    client: "Ottoline and Bram Fennimore",
    construction: "Timber frame, two storeys, low-energy house",
    purpose: "Certificate at completion",
    kind: "Final test at completion",
    preparation: "method 3, certificate",
    report: "QP-2026-118",
    tester: "Ines Corvane",
    reviewer: "Tobiah Marl",
  },
  criterion: "Passive house, new build",
  convention: "room by room",
  testDate: daySerial(2026, 10, 15),
  rooms: [
    ["Living and dining", "ground", 6.35, 4.95, 2.6],
    ["Kitchen", "ground", 3.95, 4.95, 2.6],
    ["Kitchen, service shaft (deducted)", "ground", -0.6, 0.45, 2.6],
    ["Hall, front part", "ground", 3.1, 1.6, 2.6],
    ["Hall, stairs", "ground", 1.9, 1.45, 2.6],
    ["Shower room", "ground", 1.1, 1.35, 2.6],
    ["Study", "ground", 2.55, 3.05, 2.6],
    ["Plant room", "ground", 1.25, 3.05, 2.6],
    ["Bedroom 1", "upper", 4.4, 4.95, 2.45],
    ["Bedroom 2", "upper", 3.25, 4.95, 2.45],
    ["Bedroom 3", "upper", 2.65, 4.95, 2.45],
    ["Bathroom", "upper", 2.55, 3.05, 2.45],
    ["Landing", "upper", 3.1, 3.05, 2.45],
    ["Linen store", "upper", 1.25, 3.05, 2.38],
  ],
  tolerance: 0.02,
  outlines: { ground: wholeStorey, upper: wholeStorey, top: [] },
  storeyHeights: { ground: 2.92, upper: 2.45, top: null },
  houseHeight: 5.6,
  instruments: [
    [
      "Envelope pressure gauge",
      "digital, upper input",
      "GA-2207",
      "±1 % or 0.2 Pa",
      "C 26-0311",
      daySerial(2026, 3, 4),
      daySerial(2028, 3, 4),
    ],
    [
      "Fan pressure gauge",
      "digital, lower input",
      "GA-2207",
      "±1 % or 0.2 Pa",
      "C 26-0312",
      daySerial(2026, 3, 4),
      daySerial(2028, 3, 4),
    ],
    [
      "Flow device",
      "door fan, openings A to C",
      "FD-0417",
      "±3 %",
      "C 25-1187",
      daySerial(2025, 5, 20),
      daySerial(2029, 5, 20),
    ],
    [
      "Thermometer",
      "probe, indoors and outdoors",
      "TH-093",
      "±0.5 K",
      "C 26-0088",
      daySerial(2026, 1, 19),
      daySerial(2028, 1, 19),
    ],
    [
      "Barometer",
      "aneroid, site reading",
      "BA-014",
      "±50 Pa",
      "C 25-0942",
      daySerial(2025, 11, 3),
      daySerial(2027, 11, 3),
    ],
  ],
  openings: [
    ["A", "large", 112.6, 0.502, 15, 300, 0.01],
    ["B", "medium", 37.9, 0.505, 15, 300, 0.008],
    ["C", "small", 12.84, 0.511, 20, 300, 0.008],
  ],
  // Air at 20 °C, 101 325 Pa, dry.
  calibrationDensity: 1.2041,
  runs: {
    depressurization: [depressurization, secondDepressurization],
    pressurization: [pressurization, undefined],
  },
};

/** A run as it would have been typed in other units, rounded as the instruments of those units show. */
function converted(run: DirectionReadings, { in: unit, fromCelsius, digits }: Units): DirectionReadings {
  const degrees = (pair: readonly [number, number]) => pair.map((one) => inUnit(fromCelsius(one), 1, 1));
  const [insideBefore = 0, insideAfter = 0] = degrees(run.indoorTemperature);
  const [outsideBefore = 0, outsideAfter = 0] = degrees(run.outdoorTemperature);
  return {
    ...run,
    indoorTemperature: [insideBefore, insideAfter],
    outdoorTemperature: [outsideBefore, outsideAfter],
    barometer: inUnit(run.barometer, unit.barometer, digits.barometer),
    wind: inUnit(run.wind, unit.speed, 1),
  };
}

const { in: unit } = inchPound;
const feet = (metres: number) => inUnit(metres, unit.length, 2);
const corners = (outline: Scenario["outlines"]["ground"]) => outline.map(([x, y]) => [feet(x), feet(y)] as const);
const { outlines, storeyHeights, runs } = larchHouse;

/** A twin of the metric house across the sea, measured by tape in feet; its pressures are the same, in Pa. */
export const tamarackHouse: Scenario = {
  ...larchHouse,
  file: "final-test-ip.xlsx",
  units: inchPound,
  house: {
    ...larchHouse.house,
    name: "Tamarack House",
    address: "12 Driftwood Road, Heron Slough, Ought County",
    client: "Philippa and Amos Drewry",
    construction: "Wood frame, two stories, low-energy house",
    report: "QP-2026-131",
  },
  criterion: "Phius",
  convention: "room by room",
  rooms: larchHouse.rooms.map(
    ([room, storey, length, width, height]) => [room, storey, feet(length), feet(width), feet(height)] as const,
  ),
  tolerance: 0.07,
  outlines: { ground: corners(outlines.ground), upper: corners(outlines.upper), top: [] },
  storeyHeights: { ground: feet(storeyHeights.ground), upper: feet(storeyHeights.upper), top: null },
  houseHeight: inUnit(larchHouse.houseHeight, unit.length, 1),
  instruments: larchHouse.instruments.map((one) => {
    const [name, type, number, accuracy, ...rest] = one;
    const stated = accuracy.replace("±0.5 K", "±1 °F").replace("±50 Pa", "±0.02 inHg");
    return [name, type, number, stated, ...rest] as const;
  }),
  openings: larchHouse.openings.map(
    ([name, what, c, ...rest]) => [name, what, inUnit(c, unit.flow, 3), ...rest] as const,
  ),
  calibrationDensity: inUnit(larchHouse.calibrationDensity, unit.density, inchPound.digits.density),
  runs: {
    depressurization: [
      converted(runs.depressurization[0], inchPound),
      runs.depressurization[1] && converted(runs.depressurization[1], inchPound),
    ],
    pressurization: [converted(runs.pressurization[0], inchPound), undefined],
  },
};
