import type { Gusts } from "./physics/gusts";

/** How a test is made and what the weather does to it; the instruments are chosen separately. */
export interface Scenario {
  readonly name: string;
  readonly about: string;
  /** What the tester aims at, Pa. */
  readonly pressures: readonly number[];
  /** The opening of the flow device at each of them, A or B. */
  readonly openings: string;
  readonly flowBasis: "indicated at calibration density" | "actual at the fan" | "through the envelope";
  readonly baseline: {
    /** Rows a second apart, before and after each direction. */
    readonly rows: number;
    readonly gusts: Gusts;
    /** What stands in the sheet: the rows, or one value, their mean. */
    readonly typed: "rows" | "mean";
    /** One pair of baselines, before the first direction and after the second. */
    readonly shared: boolean;
  };
  /** A reading is the mean of so many seconds. */
  readonly reading: { readonly gusts: Gusts; readonly seconds: number; readonly flowNoise: number };
  /** Standard deviation, Pa, of what a linear drift adds from the baseline before to the one after. */
  readonly drift: number;
  /** Standard deviation, Pa, of where a random walk has led by the baseline after: no real baseline keeps to a straight course. */
  readonly wander: number;
  /** Times of readings and baselines are typed; the later readings then take longer. */
  readonly times: boolean;
  /** m/s, and the height of the house, m: what both leave in the readings is drawn from the widths that the function assumes for them. */
  readonly wind: number;
  readonly height: number;
  /** Every technique, or the ordinary one alone. */
  readonly techniques: "all" | "ordinary";
  /** Settings beyond the usual ones. */
  readonly settings: readonly (readonly [label: string, value: string | number])[];
}

const white = (deviation: number): Gusts => ({ deviation, autocorrelation: 0 });
const gusty: Gusts = { deviation: 1, autocorrelation: 0.95 };

const calm: Scenario = {
  name: "calm",
  about: "ten readings from 62 to 16 Pa, noise 0.3 Pa and 0.5 %, baselines of 12 rows",
  pressures: [62, 57, 52, 47, 42, 37, 32, 27, 21, 16],
  openings: "AAAAAAAAAA",
  flowBasis: "indicated at calibration density",
  baseline: { rows: 12, gusts: white(0.3), typed: "rows", shared: false },
  reading: { gusts: white(0.3), seconds: 1, flowNoise: 0.005 },
  drift: 0,
  wander: 0,
  times: false,
  wind: 0,
  height: 0,
  techniques: "all",
  settings: [],
};

const withNoise = (rows: number, ofRows: number, ofReadings: number) => ({
  baseline: { ...calm.baseline, rows, gusts: white(ofRows) },
  reading: { ...calm.reading, gusts: white(ofReadings) },
});

const fivePressures = { pressures: [60, 46, 34, 23, 12], openings: "AAAAA" };
const eightPressures = { pressures: [60, 53, 47, 40, 34, 27, 21, 15], openings: "AAAAAAAA" };

/** What the coverage is tried in; the names are those of `--scenario`. */
export const scenarios: readonly Scenario[] = [
  calm,
  {
    ...calm,
    ...withNoise(12, 1, 1),
    ...fivePressures,
    name: "few",
    about: "five readings from 60 to 12 Pa, noise 1 Pa and 0.5 %, baselines of 12 rows",
  },
  {
    ...calm,
    ...withNoise(12, 2.5, 1),
    ...eightPressures,
    name: "noisy-12",
    about: "eight readings from 60 to 15 Pa, noise 1 Pa and 0.5 %, baselines of 12 rows with noise of 2.5 Pa",
  },
  {
    ...calm,
    ...withNoise(6, 2.5, 1),
    ...eightPressures,
    name: "noisy-6",
    about: "as noisy-12, baselines of 6 rows",
    techniques: "ordinary",
  },
  {
    ...calm,
    ...withNoise(12, 0.5, 0.5),
    name: "drift",
    about: "as calm, noise 0.5 Pa; the baseline moves by 2 Pa (standard deviation), most of it evenly",
    drift: 1.8,
    wander: 0.8,
  },
  {
    ...calm,
    ...withNoise(12, 0.5, 0.5),
    name: "drift-times",
    about: "as drift, times typed, later readings take longer",
    drift: 1.8,
    wander: 0.8,
    times: true,
    techniques: "ordinary",
  },
  {
    ...calm,
    ...withNoise(12, 1, 1),
    name: "wind",
    about: "as calm, noise 1 Pa; wind of 4 m/s, a house 8 m high",
    wind: 4,
    height: 8,
  },
  {
    ...calm,
    baseline: { ...calm.baseline, rows: 60, gusts: gusty },
    reading: { ...calm.reading, gusts: gusty, seconds: 20 },
    name: "gusts",
    about: "as calm, gusts of 1 Pa correlated 0.95 from second to second; baselines of 60 s, readings of 20 s",
  },
  {
    ...calm,
    ...withNoise(12, 0.05, 0),
    reading: { gusts: white(0), seconds: 1, flowNoise: 0.01 },
    name: "flow",
    about: "as calm, noise 1 % of the flow alone; baselines of 12 rows with noise of 0.05 Pa",
  },
  {
    ...calm,
    name: "two-openings",
    about: "eight readings from 30 to 10 Pa through two openings, noise 0.3 Pa and 0.5 %",
    pressures: [30, 27, 24, 20, 18, 15, 12, 10],
    openings: "AAAABBBB",
    techniques: "ordinary",
  },
  {
    ...calm,
    baseline: { ...calm.baseline, gusts: white(0.5), shared: true },
    name: "shared",
    about: "as calm, one pair of baselines for both directions, 12 rows with noise of 0.5 Pa",
    techniques: "ordinary",
    settings: [["baseline shared", "yes"]],
  },
  {
    ...calm,
    baseline: { ...calm.baseline, rows: 25, gusts: white(1), typed: "mean" },
    name: "averaged",
    about: "as calm, each baseline one value that is wrong by 0.2 Pa (standard deviation), as the function assumes",
    techniques: "ordinary",
  },
];
