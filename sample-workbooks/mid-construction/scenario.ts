import { daySerial } from "../blocks/style";

/** Firm, house, place, people, instruments and readings are invented; no such house stands anywhere. */

/** A calendar day of 2026 as Excel counts days. */
export function dayOf2026(month: number, dayOfMonth: number): number {
  return daySerial(2026, month, dayOfMonth);
}

export const remark = "Invented firm, house and readings";

export const house = {
  name: "Teasel House",
  address: "3 Sandpiper Row, Tern’s End, Isle of Ought",
  client: "Rosalind and Piet Quillfeather",
  construction: "Timber frame, boards and membranes open",
  site: "Hollis Drum, site manager",
  tester: "Ines Corvane",
  reported: dayOf2026(9, 25),
  final: dayOf2026(12, 8),
  closed: dayOf2026(10, 5),
  /** Room by room from the drawings, m³; inside, m². */
  volume: 418,
  envelopeArea: 396.5,
  floorArea: 161.8,
} as const;

/** Standard uncertainties, as fractions. */
export const worth = { device: 0.02, gauge: 0.005, repeat: 0.01 } as const;

/** Of the costs in the leak register. */
export const currency = "£";

export const calibrationDensity = 1.2041;

export interface PointTest {
  readonly title: string;
  readonly day: number;
  readonly state: string;
  readonly indoors: number;
  readonly outdoors: number;
  readonly barometer: number;
  readonly wind: number;
  readonly before: readonly number[];
  readonly after: readonly number[];
  /** Pressure as read, Pa, and flow as the gauge shows it at calibration density, m³/h. */
  readonly readings: readonly (readonly [pressure: number, flow: number])[];
}

export const pointTests: readonly [PointTest, PointTest] = [
  {
    title: "Multi-point 1",
    day: dayOf2026(9, 22),
    state: "Barrier closed and taped, nothing lined; before the repairs",
    indoors: 17.2,
    outdoors: 11.6,
    barometer: 101_120,
    wind: 1.8,
    before: [-0.6, -1.0, -1.1, -1.2, -0.9],
    after: [-0.9, -1.0, -0.9, -0.8, -0.7],
    readings: [
      [-64.7, 534],
      [-56.8, 487],
      [-51.6, 457],
      [-43.9, 413],
      [-38.3, 371],
      [-30.6, 322],
      [-23.5, 269],
      [-17.9, 221],
    ],
  },
  {
    title: "Multi-point 2",
    day: dayOf2026(9, 24),
    state: "After the repairs of the day before; balcony sill made good",
    indoors: 16.8,
    outdoors: 10.9,
    barometer: 100_870,
    wind: 2.1,
    before: [-1.1, -1.0, -1.1, -1.4, -0.9],
    after: [-1.3, -0.5, -1.3, -0.9, -1.1],
    readings: [
      [-65.3, 321],
      [-60.5, 306],
      [-53.7, 280],
      [-47.1, 256],
      [-40.1, 230],
      [-31.0, 192],
      [-25.9, 168],
      [-20.0, 142],
    ],
  },
];

/** One reading on each of several days while the barrier was being closed; a measured exponent and its uncertainty where there is one. */
export const quickTests: readonly {
  readonly day: number;
  readonly stage: string;
  readonly pressure: number;
  readonly baseline: number;
  readonly flow: number;
  readonly indoors: number;
  readonly outdoors: number;
  readonly barometer: number;
  readonly exponent?: readonly [n: number, uncertainty: number];
}[] = [
  {
    day: dayOf2026(8, 3),
    stage: "Walls boarded, roof membrane open at the ridge",
    pressure: -24.6,
    baseline: -0.3,
    flow: 955,
    indoors: 19,
    outdoors: 17.5,
    barometer: 101_300,
  },
  {
    day: dayOf2026(8, 18),
    stage: "Roof membrane closed, windows not taped",
    pressure: -41.3,
    baseline: -0.4,
    flow: 767,
    indoors: 20.5,
    outdoors: 18.2,
    barometer: 101_050,
  },
  {
    day: dayOf2026(9, 4),
    stage: "Windows taped to the boards",
    pressure: -49.2,
    baseline: -0.7,
    flow: 600,
    indoors: 18.4,
    outdoors: 14.9,
    barometer: 100_940,
  },
  {
    day: dayOf2026(9, 15),
    stage: "Pipes and ducts taped, cables not yet",
    pressure: -50.8,
    baseline: -0.8,
    flow: 517,
    indoors: 17.5,
    outdoors: 13.1,
    barometer: 101_210,
  },
  {
    day: dayOf2026(9, 25),
    stage: "After the electrician’s second visit",
    pressure: -51.1,
    baseline: -1.2,
    flow: 274,
    indoors: 16.9,
    outdoors: 10.2,
    barometer: 101_340,
    exponent: [0.67, 0.01],
  },
];

/** Five repeats at two pressures on one day. */
export const twoPointTest = {
  day: dayOf2026(9, 15),
  stage: "Pipes and ducts taped, cables not yet",
  indoors: 17.5,
  outdoors: 13.1,
  barometer: 101_210,
  baseline: [-0.7, -0.9, -0.8, -0.6, -1.0],
  high: [
    [-50.7, 518],
    [-51.4, 525],
    [-50.8, 525],
    [-51.2, 523],
    [-50.7, 518],
  ],
  low: [
    [-13.2, 207],
    [-13.5, 208],
    [-13.4, 209],
    [-12.8, 203],
    [-13.0, 205],
  ],
} as const;

/** Tape and retest on one day, each step on top of the ones before. */
export const series = {
  day: dayOf2026(9, 23),
  indoors: 17.4,
  outdoors: 12.3,
  barometer: 101_060,
  steps: [
    ["As found", null, "start", -50.9, -0.9, 453],
    ["Nothing changed, read again", null, "nothing changed", -51.2, -0.7, 457],
    ["Sole plate to slab, north wall: taped and primed", 1, "lasting", -50.9, -0.7, 397],
    ["Collar of the roof window, bathroom", 2, "lasting", -51.6, -0.9, 361],
    ["Pipe bundle, plant room: collar", 3, "lasting", -50.9, -0.7, 330],
    ["Cables at the meter cupboard", 4, "lasting", -51.4, -1.0, 326],
    ["Purlin ends, west gable", 5, "lasting", -50.4, -0.9, 285],
    ["Balcony door, sill: taped over", 6, "temporary", -50.3, -1.0, 268],
    ["Socket boxes, east bedroom", 7, "lasting", -50.4, -0.9, 267],
    ["Balcony door, sill: tape off again", 6, "tape off", -51.5, -1.3, 286],
  ] as readonly (readonly [
    what: string,
    leak: number | null,
    kind: "start" | "nothing changed" | "lasting" | "temporary" | "tape off",
    pressure: number,
    baseline: number,
    flow: number,
  ])[],
} as const;

/** Likely, low and high flow at 50 Pa, m³/h. */
type Range = readonly [what: string, likely: number, low: number, high: number];

export const openings: readonly Range[] = [
  ["Two ventilation ducts through the wall", 5, 3, 9],
  ["Boxes and cables of the electrician’s last visit", 3, 1, 8],
];
