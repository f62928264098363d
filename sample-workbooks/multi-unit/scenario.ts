import { daySerial } from "../blocks/style";

/** Firm, building, place, people and readings are invented; no such building stands anywhere. */

export const remark = "Invented firm, building and readings";

export const building = {
  name: "Cormorant Yard",
  address: "12 Ropewalk, Tern’s End, Isle of Ought",
  client: "Ought Dwellings, housing co-operative",
  construction: "Masonry, three storeys, nine flats",
  preparation: "method 2, building envelope",
  report: "QP-2026-137",
  tester: "Ines Corvane, three guarding fans",
  reported: daySerial(2026, 11, 13),
} as const;

/** Standard uncertainties, as fractions. */
export const worth = { device: 0.02, gauge: 0.005, repeat: 0.01 } as const;

export const calibrationDensity = 1.2041;

export const positions = [
  "ground, corner",
  "ground, middle",
  "middle, corner",
  "middle, inner",
  "top, corner",
  "top, middle",
];

export interface Unit {
  readonly name: string;
  readonly position: string;
  /** m², m³, m². */
  readonly floorArea: number;
  readonly volume: number;
  readonly envelopeArea: number;
  /** Of the envelope, what faces outdoors or the ground, m². */
  readonly outerArea: number;
  readonly chosenBy?: string;
  readonly why?: string;
}

export const units: readonly Unit[] = [
  {
    name: "G1",
    position: "ground, corner",
    floorArea: 89.2,
    volume: 231,
    envelopeArea: 278,
    outerArea: 168,
    chosenBy: "position",
    why: "Largest area to ground and outdoors",
  },
  { name: "G2", position: "ground, middle", floorArea: 62.4, volume: 161.5, envelopeArea: 214, outerArea: 98 },
  {
    name: "G3",
    position: "ground, corner",
    floorArea: 86.8,
    volume: 224.8,
    envelopeArea: 272,
    outerArea: 161,
    chosenBy: "asked for",
    why: "Tenant complains of draughts; access for one run only",
  },
  { name: "M1", position: "middle, corner", floorArea: 89.2, volume: 231, envelopeArea: 278, outerArea: 74 },
  {
    name: "M2",
    position: "middle, inner",
    floorArea: 37.9,
    volume: 98.2,
    envelopeArea: 151,
    outerArea: 31,
    chosenBy: "smallest",
    why: "Smallest flat, most area to neighbours",
  },
  { name: "M3", position: "middle, corner", floorArea: 86.8, volume: 224.8, envelopeArea: 272, outerArea: 71 },
  { name: "T1", position: "top, corner", floorArea: 89.2, volume: 262, envelopeArea: 291, outerArea: 181 },
  {
    name: "T2",
    position: "top, middle",
    floorArea: 38.6,
    volume: 104.3,
    envelopeArea: 158,
    outerArea: 78,
    chosenBy: "by lot",
    why: "Drawn from the flats under the roof",
  },
  {
    name: "T3",
    position: "top, corner",
    floorArea: 89.6,
    volume: 262.4,
    envelopeArea: 292,
    outerArea: 182,
    chosenBy: "position",
    why: "Roof and two gables",
  },
];

export interface Run {
  readonly before: number;
  readonly after: number;
  /** Pressure as read, Pa, and flow as the gauge shows it at calibration density, m³/h. */
  readonly readings: readonly (readonly [pressure: number, flow: number])[];
}

/** One unit's runs on one day: without guarding fans, and with the neighbours held at the same pressure. */
export interface TestedUnit {
  readonly unit: string;
  readonly day: number;
  readonly indoors: number;
  readonly outdoors: number;
  readonly barometer: number;
  readonly unguarded: Run;
  readonly guarded?: Run;
}

export const testedUnits: readonly TestedUnit[] = [
  {
    unit: "G1",
    day: daySerial(2026, 11, 11),
    indoors: 20.8,
    outdoors: 6.4,
    barometer: 100_420,
    unguarded: {
      before: -1.6,
      after: -1.8,
      readings: [
        [-61.5, 622],
        [-54.9, 578],
        [-46.8, 529],
        [-39.5, 471],
        [-32.9, 418],
        [-26.5, 363],
        [-19.7, 295],
      ],
    },
    guarded: {
      before: -1.3,
      after: -1.3,
      readings: [
        [-62.3, 577],
        [-54.8, 522],
        [-47.5, 475],
        [-40.7, 430],
        [-31.8, 366],
        [-25.9, 320],
        [-17.4, 243],
      ],
    },
  },
  {
    unit: "M2",
    day: daySerial(2026, 11, 11),
    indoors: 21.6,
    outdoors: 6.9,
    barometer: 100_400,
    unguarded: {
      before: -1.5,
      after: -1.0,
      readings: [
        [-63.0, 619],
        [-54.3, 568],
        [-48.3, 511],
        [-39.9, 454],
        [-33.5, 405],
        [-25.8, 338],
        [-19.1, 275],
      ],
    },
    guarded: {
      before: -1.1,
      after: -1.1,
      readings: [
        [-62.3, 418],
        [-54.5, 378],
        [-47.9, 350],
        [-40.5, 310],
        [-33.1, 270],
        [-26.0, 225],
        [-17.6, 173],
      ],
    },
  },
  {
    unit: "T2",
    day: daySerial(2026, 11, 12),
    indoors: 22.1,
    outdoors: 7.3,
    barometer: 100_390,
    unguarded: {
      before: -1.6,
      after: -1.4,
      readings: [
        [-61.8, 468],
        [-54.1, 434],
        [-47.2, 394],
        [-38.9, 341],
        [-33.6, 312],
        [-27.2, 268],
        [-17.9, 202],
      ],
    },
    guarded: {
      before: -1.3,
      after: -1.7,
      readings: [
        [-60.4, 396],
        [-54.3, 368],
        [-48.8, 339],
        [-41.3, 308],
        [-33.8, 265],
        [-26.2, 223],
        [-18.4, 173],
      ],
    },
  },
  {
    unit: "T3",
    day: daySerial(2026, 11, 12),
    indoors: 20.3,
    outdoors: 7.6,
    barometer: 100_370,
    unguarded: {
      before: -1.7,
      after: -2.3,
      readings: [
        [-61.9, 586],
        [-53.9, 535],
        [-48.0, 498],
        [-41.5, 449],
        [-33.9, 397],
        [-24.5, 320],
        [-18.0, 258],
      ],
    },
    guarded: {
      before: -1.3,
      after: -1.4,
      readings: [
        [-62.2, 572],
        [-55.6, 536],
        [-47.0, 486],
        [-39.6, 437],
        [-33.4, 390],
        [-24.6, 317],
        [-18.0, 256],
      ],
    },
  },
  {
    unit: "G3",
    day: daySerial(2026, 11, 12),
    indoors: 20.5,
    outdoors: 8.1,
    barometer: 100_350,
    unguarded: {
      before: -1.7,
      after: -1.7,
      readings: [
        [-62.6, 523],
        [-55.1, 481],
        [-49.1, 450],
        [-39.4, 383],
        [-33.8, 347],
        [-25.5, 287],
        [-18.5, 226],
      ],
    },
  },
];

export const sampling = {
  rule: "One in five flats, at least four; every position that has its own kind of joint",
  agreed: "Ought Dwellings and the certifier’s office",
  agreedOn: daySerial(2026, 11, 4),
  reason: "Middle flats at corners repeat the walls of those below and above; access was not given to M3 and T1",
} as const;
