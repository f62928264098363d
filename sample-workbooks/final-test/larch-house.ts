import { depressurization, pressurization, secondDepressurization } from "./readings";
import { serial, type Scenario } from "./scenario";
import { metric } from "./units";

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
  testDate: serial(2026, 10, 15),
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
      "two-channel, channel A",
      "GA-2207",
      "±1 % or 0.2 Pa",
      "C 26-0311",
      serial(2026, 3, 4),
      serial(2028, 3, 4),
    ],
    [
      "Fan pressure gauge",
      "two-channel, channel B",
      "GA-2207",
      "±1 % or 0.2 Pa",
      "C 26-0312",
      serial(2026, 3, 4),
      serial(2028, 3, 4),
    ],
    [
      "Flow device",
      "door fan, openings A to C",
      "FD-0417",
      "±3 %",
      "C 25-1187",
      serial(2025, 5, 20),
      serial(2029, 5, 20),
    ],
    [
      "Thermometer",
      "probe, indoors and outdoors",
      "TH-093",
      "±0.5 K",
      "C 26-0088",
      serial(2026, 1, 19),
      serial(2028, 1, 19),
    ],
    ["Barometer", "aneroid, site reading", "BA-014", "±50 Pa", "C 25-0942", serial(2025, 11, 3), serial(2027, 11, 3)],
  ],
  openings: [
    ["A", "large", 112.6, 0.502, 15, 300],
    ["B", "medium", 37.9, 0.505, 15, 300],
    ["C", "small", 12.84, 0.511, 20, 300],
  ],
  // Air at 20 °C, 101 325 Pa, dry.
  calibrationDensity: 1.2041,
  runs: {
    depressurization: [depressurization, secondDepressurization],
    pressurization: [pressurization, undefined],
  },
};
