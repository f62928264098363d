import { daySerial } from "../blocks/style";

/** Programme, firms, houses and readings are invented; no such house stands anywhere. */

export const remark = "Invented programme, houses and readings";
export const footer = "Review of a programme’s airtightness tests";

export const programme = {
  name: "Isle of Ought low-energy homes, round 3",
  sponsor: "Ought Housing Fund",
  reviewer: "Tobiah Marl",
  round: "November 2026",
} as const;

export const testers = [
  "Quince & Plover",
  "Windle and Daughters",
  "Brackwater Testing",
  "Halyard Surveys",
  "Ottoline Crake",
  "Three Gables Testing",
  "Fenland Airmen",
  "Moss & Mortar",
] as const;

export const houseCount = 500;

/** Six stations of one direction as a report lists them: induced pressures in Pa as magnitudes, flows through the envelope in m³/h. */
export interface Stations {
  readonly pressures: readonly number[];
  readonly flows: readonly number[];
}

/** One report, as the programme's clerk typed it in. */
export interface House {
  readonly id: string;
  readonly tester: string;
  readonly day: number;
  readonly volume: number;
  readonly indoor: number;
  readonly outdoor: number;
  /** Largest of the baseline means, Pa, as a magnitude. */
  readonly baseline: number;
  readonly certificateUntil: number;
  readonly reported: number;
  readonly depressurization: Stations;
  readonly pressurization: Stations;
}

const firstDay = daySerial(2026, 2, 2);

/** Every so-and-so-manieth report has a fault of its own kind, planted so that the review has something to find. */
const every = (period: number, first: number) => (index: number) => index % period === first;
const faults = {
  reportedTooLow: every(83, 7),
  flowsInOtherUnit: every(125, 11),
  scattered: every(71, 5),
  stoppedEarly: every(61, 9),
  oneDirection: every(67, 13),
  directionsApart: every(53, 17),
  certificateOut: every(101, 19),
  windy: every(59, 23),
} as const;

const round = (value: number, digits: number) => Number(value.toFixed(digits));

/** The same five hundred reports at each making. */
export function madeHouses(): House[] {
  let state = 4_171;
  const draw = () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
  /** Near a bell: the sum of three draws. */
  const bell = () => (draw() + draw() + draw() - 1.5) * 2;
  return Array.from({ length: houseCount }, (_, index) => makeHouse(index, draw, bell));
}

function makeHouse(index: number, draw: () => number, bell: () => number): House {
  const volume = round(260 + 900 * draw() ** 2, 1);
  const n50 = Math.exp(-0.78 + 0.27 * bell());
  const exponent = 0.64 + 0.035 * bell();
  const [indoor, outdoor] = [round(20 + bell(), 1), round(9 + 6 * bell(), 1)];
  const lean = faults.directionsApart(index) ? 1.17 : 1 + 0.02 * bell();
  const scatter = faults.scattered(index) ? 0.11 : 0.006;
  const highest = faults.stoppedEarly(index) ? 46 : 61;
  const stations = (factor: number): Stations => {
    const pressures = Array.from({ length: 6 }, (_, step) =>
      round(highest - (highest - 15) * (step / 5) + bell() / 2, 1),
    );
    const unit = faults.flowsInOtherUnit(index) ? 0.588_578 : 1;
    const flows = pressures.map((pressure) => {
      const flow = n50 * factor * volume * Math.pow(pressure / 50, exponent);
      return round(flow * unit * (1 + scatter * bell()), 1);
    });
    return { pressures, flows };
  };
  const depressurization = stations(1 / Math.sqrt(lean));
  const pressurization = faults.oneDirection(index) ? { pressures: [], flows: [] } : stations(Math.sqrt(lean));
  const day = firstDay + Math.floor(250 * draw());
  return {
    id: `H-${String(index + 1).padStart(3, "0")}`,
    tester: testers[Math.floor(testers.length * draw() ** 1.4)] ?? testers[0],
    day,
    volume,
    indoor,
    outdoor,
    baseline: faults.windy(index) ? round(5.4 + draw(), 1) : round(0.3 + 2 * draw(), 1),
    certificateUntil: faults.certificateOut(index) ? day - 12 : day + 60 + Math.floor(500 * draw()),
    reported: round(faults.reportedTooLow(index) ? n50 - 0.07 : n50 * airFactor(indoor, outdoor, exponent), 2),
    depressurization,
    pressurization,
  };
}

/** What reference conditions change, roughly, as the reports would have it. */
function airFactor(indoor: number, outdoor: number, exponent: number): number {
  const density = (celsius: number) => 353 / (273.15 + celsius) / 1.2041;
  return (density(indoor) ** (1 - exponent) + density(outdoor) ** (1 - exponent)) / 2;
}
