import { assumedHumidity } from "../../core/index";
import type { UnitSystem } from "../cells/units";
import type { Labels } from "./labels";

/** What a person needs to know of a label, besides what the code of the functions says: labels.ts, and the values assumed in settings.ts and assumptions.ts. */
export interface Meaning {
  readonly means: string;
  /** What the value is in, where labels.ts names neither a measure nor words. */
  readonly unit?: string | ((system: UnitSystem) => string);
  /** What counts as long as nothing is given, where the code assumes no single value. A number is in the method's units. */
  readonly ifBlank?: string | number;
  /** A value that a tester might type; a number is in the method's units. */
  readonly example: string | number;
}

/** Labels that belong together. */
export interface LabelGroup {
  readonly name: string;
  readonly meanings: { readonly [Label in keyof Labels]?: Meaning };
}

/** Neither given nor assumed. */
const nothing = "none";

const anyHumidity = `${assumedHumidity}, in a budget from 0 to 1`;
const fraction = "fraction";
/** Temperature differences. */
export const degrees = ({ temperature }: UnitSystem) => (temperature === "°C" ? "K" : temperature);
const pascal = "Pa";
const date = "date";
const plain = "number";

/** Every label once, in the order in which a tester fills them in. For pages and commands only, not part of functions.js. */
export const labelGroups: readonly LabelGroup[] = [
  {
    name: "Building",
    meanings: {
      volume: { means: "internal volume V; needed for n50", ifBlank: nothing, example: 480 },
      "envelope area": { means: "envelope area A_E, all six sides", ifBlank: nothing, example: 410 },
      "floor area": { means: "floor area A_F", ifBlank: nothing, example: 185 },
      "building height": { means: "height of the building above ground", ifBlank: nothing, example: 7.5 },
      "volume convention": { means: "how the volume was measured", ifBlank: nothing, example: "whole internal" },
    },
  },
  {
    name: "Air",
    meanings: {
      "indoor temperature": { means: "air indoors during the test", ifBlank: "needed for a test", example: 21 },
      "outdoor temperature": { means: "air outdoors during the test", ifBlank: "needed for a test", example: 3 },
      "barometric pressure": {
        means: "at the site, not reduced to sea level",
        ifBlank: "from the altitude, else 101 325 Pa",
        example: 99_800,
      },
      altitude: { means: "altitude of the site, if no barometer was read", ifBlank: nothing, example: 120 },
      "indoor humidity": { means: "relative humidity indoors", unit: fraction, ifBlank: anyHumidity, example: 0.45 },
      "outdoor humidity": { means: "relative humidity outdoors", unit: fraction, ifBlank: anyHumidity, example: 0.8 },
      "air density": { means: "formula for the air density", ifBlank: "moist air", example: "moist air" },
    },
  },
  {
    name: "Readings",
    meanings: {
      "flow basis": {
        means: "what kind of flow the column holds",
        ifBlank: "needed for a test",
        example: "indicated at calibration density",
      },
      "calibration density": { means: "air density of the flow device's calibration", example: 1.2041 },
      "pressure sign": { means: "how the pressure readings are signed", example: "indoors minus outdoors" },
      "time of baseline before": {
        means: "middle of the baseline before; needed where the readings carry times",
        unit: "as the readings' times",
        ifBlank: nothing,
        example: 0,
      },
      "time of baseline after": {
        means: "middle of the baseline after; needed where the readings carry times",
        unit: "as the readings' times",
        ifBlank: nothing,
        example: 25,
      },
      openings: {
        means:
          'fan opening of each reading: names of "opening names", separated by ;, or a letter each, such as AAABB; one name for all',
        unit: "names or letters",
        ifBlank: "one opening for all readings",
        example: "AAABB",
      },
      "opening names": {
        means: "the fan's openings, at most eight, in the order of its certificate, separated by ;",
        unit: "names",
        ifBlank: "A to H",
        example: "no ring; ring 40; plate",
      },
    },
  },
  {
    name: "Evaluation",
    meanings: {
      standard: { means: "standard by which the test is evaluated and judged", example: "ISO 9972" },
      technique: {
        means: "how the line is fitted",
        ifBlank: "the standard's: ordinary; CGSB 149.10 with several points: weighted",
        example: "ordinary",
      },
      "pressure uncertainty": {
        means: "random error of a pressure reading, as a standard uncertainty",
        unit: pascal,
        ifBlank: "from the baseline rows, else 1 Pa",
        example: 0.5,
      },
      "flow uncertainty": {
        means: "random error of a flow reading, as a standard uncertainty",
        unit: fraction,
        ifBlank: "0.005 beside a known error of the pressure, else 0.01",
        example: 0.005,
      },
      confidence: { means: "confidence level of the limits", unit: fraction, example: 0.95 },
      "reference pressure": {
        means: "pressure of an additional result or of a limit",
        unit: pascal,
        ifBlank: "no additional result; of a limit: 50 Pa, or the definition's",
        example: 75,
      },
      units: { means: "units of what the settings and columns hold, and of the results", ifBlank: "SI", example: "IP" },
      headings: { means: "whether the table begins with a row of headings", ifBlank: "no", example: "yes" },
    },
  },
  {
    name: "Limit",
    meanings: {
      quantity: {
        means: "quantity that the limit applies to",
        ifBlank: "needed for a limit",
        example: "air change rate",
      },
      "flow degrees of freedom": {
        means: "degrees of freedom of the flow's uncertainty in a forecast",
        unit: plain,
        ifBlank: "infinite",
        example: 12,
      },
      exponent: { means: "n that converts a flow to another pressure", unit: plain, example: 0.65 },
      "leakage area definition": {
        means: "definition of the leakage area that the limit applies to",
        ifBlank: "needed for a limit on a leakage area",
        example: "effective 4 Pa",
      },
    },
  },
  {
    name: "Validity",
    meanings: {
      "wind speed": { means: "wind during the test", ifBlank: nothing, example: 2.5 },
      "wind place": {
        means: "where the wind speed was measured",
        ifBlank: "needed beside a wind speed",
        example: "near the ground",
      },
      beaufort: { means: "wind on the Beaufort scale", unit: "0 to 12", ifBlank: nothing, example: 2 },
      "test date": { means: "day of the test", unit: date, ifBlank: nothing, example: 46_350 },
      "gauge certificate valid until": {
        means: "last day of the pressure gauge's certificate",
        unit: date,
        ifBlank: nothing,
        example: 46_573,
      },
      "flow device certificate valid until": {
        means: "last day of the flow device's certificate",
        unit: date,
        ifBlank: nothing,
        example: 46_573,
      },
      "q50 of the other direction": { means: "flow at 50 Pa of the other direction", ifBlank: nothing, example: 486 },
      "low pressure reason": {
        means: "why the highest pressure was not reached",
        unit: "text",
        ifBlank: nothing,
        example: "fan at full speed",
      },
    },
  },
  {
    name: "Uncertainty budget",
    meanings: {
      "budget quantity": {
        means: "result of TESTRESULT for which the budget is drawn up",
        ifBlank: "n50, without a volume q50",
        example: "qE50",
      },
      "gauge accuracy": { means: "gain of the pressure gauge, half-width", unit: fraction, example: 0.01 },
      "gauge zero": {
        means: "zero shift of the pressure gauge after the baseline, half-width",
        unit: pascal,
        example: 0.1,
      },
      "gauge resolution": { means: "smallest step of the pressure gauge", unit: pascal, example: 0.1 },
      "fan gauge accuracy": { means: "gain of the fan pressure gauge, half-width", unit: fraction, example: 0.01 },
      "fan gauge zero": { means: "zero of the fan pressure gauge, half-width", unit: pascal, example: 0.1 },
      "gauges of one calibration": {
        means: "whether both gauges share one calibration of their gain",
        ifBlank: "no",
        example: "yes",
      },
      "fan pressure at lowest flow": {
        means: "fan pressure of the reading with the lowest flow; one per opening, separated by ;",
        unit: pascal,
        ifBlank: "the zero of the fan gauge is not counted",
        example: "45; 60",
      },
      "pivot fan pressure": {
        means: "fan pressure about which the calibration curve pivots; one per opening, separated by ;",
        unit: pascal,
        ifBlank: "the middle of the readings",
        example: 120,
      },
      "fan exponent uncertainty": {
        means: "exponent of the fan's calibration, standard uncertainty; one per opening, separated by ;",
        unit: plain,
        example: 0.003,
      },
      "flow calibration uncertainty": {
        means: "flow calibration common to all openings, standard uncertainty",
        unit: fraction,
        example: 0.015,
      },
      "opening calibration uncertainty": {
        means: "flow calibration of a single opening, standard uncertainty; one per opening, separated by ;",
        unit: fraction,
        example: 0.01,
      },
      "indoor temperature uncertainty": {
        means: "standard uncertainty of the indoor temperature",
        unit: degrees,
        example: 0.5,
      },
      "outdoor temperature uncertainty": {
        means: "standard uncertainty of the outdoor temperature",
        unit: degrees,
        example: 1,
      },
      "barometer uncertainty": {
        means: "standard uncertainty of the barometric pressure",
        ifBlank: "100 Pa as read, 1 000 Pa from the altitude, 3 000 Pa where assumed",
        example: 100,
      },
      "humidity accuracy": {
        means: "relative humidities that were read, half-width",
        unit: fraction,
        example: 0.1,
      },
      "volume uncertainty": { means: "standard uncertainty of the volume", unit: fraction, example: 0.02 },
      "envelope area uncertainty": {
        means: "standard uncertainty of the envelope area",
        unit: fraction,
        example: 0.02,
      },
      "floor area uncertainty": { means: "standard uncertainty of the floor area", unit: fraction, example: 0.02 },
      "size degrees of freedom": { means: "degrees of freedom of the volume or area", unit: plain, example: 50 },
      "baseline uncertainty": {
        means: "standard uncertainty of the mean of the baseline before and of that after",
        unit: pascal,
        ifBlank: "from the baseline rows; of a single row 0.2 Pa",
        example: 0.2,
      },
      "baseline degrees of freedom": {
        means: "degrees of freedom of the baseline uncertainty",
        unit: plain,
        ifBlank: "infinite",
        example: 9,
      },
      "baseline before uncertainty": {
        means: "the baseline uncertainty for the baseline before only",
        unit: pascal,
        ifBlank: "the baseline uncertainty",
        example: 0.15,
      },
      "baseline before degrees of freedom": {
        means: "degrees of freedom of the baseline before uncertainty",
        unit: plain,
        ifBlank: "the baseline degrees of freedom",
        example: 9,
      },
      "baseline after uncertainty": {
        means: "the baseline uncertainty for the baseline after only",
        unit: pascal,
        ifBlank: "the baseline uncertainty",
        example: 0.25,
      },
      "baseline after degrees of freedom": {
        means: "degrees of freedom of the baseline after uncertainty",
        unit: plain,
        ifBlank: "the baseline degrees of freedom",
        example: 9,
      },
      "baseline shared": {
        means: "whether the same baseline serves both directions",
        ifBlank: "no",
        example: "yes",
      },
      "wind coefficient": {
        means: "difference between the wind pressure coefficients of two façades",
        unit: plain,
        example: 1,
      },
      "offset share": { means: "share of wind and stack pressure left in the readings", unit: fraction, example: 0.1 },
      "extrapolation allowance": {
        means: 'change of n per unit of ln Δp beyond the readings, half-width; "none" omits it',
        unit: 'number or "none"',
        example: "none",
      },
      "monte carlo trials": {
        means: "number of trials of the Monte Carlo check",
        unit: plain,
        ifBlank: "no check",
        example: 20_000,
      },
      "monte carlo seed": {
        means: "seed of the random numbers, so that a run can be repeated",
        unit: plain,
        ifBlank: 1,
        example: 7,
      },
    },
  },
  {
    name: "Log",
    meanings: {
      columns: {
        means: "what each column holds, in order: time, pressure, fan pressure, flow, state or other",
        unit: "words",
        ifBlank: "time, pressure",
        example: "time, pressure, fan pressure, state",
      },
      "time unit": { means: "unit of the time column", ifBlank: "told from the times", example: "seconds" },
      tolerance: {
        means: "band within which a pressure counts as steady, to each side",
        unit: pascal,
        ifBlank: 1.5,
        example: 2,
      },
      "shortest station": { means: "shortest duration of a station", unit: "s", ifBlank: 15, example: 10 },
      "fan coefficient": {
        means: "c of the opening, the flow at 1 Pa of fan pressure; needed for fan pressures",
        unit: ({ flow }) => `${flow} at 1 Pa`,
        ifBlank: nothing,
        example: 30,
      },
      "fan exponent": {
        means: "m of the opening; needed for fan pressures",
        unit: plain,
        ifBlank: "0.5 in a budget, none for a log",
        example: 0.5,
      },
      "lowest fan pressure": { means: "lowest calibrated fan pressure", unit: pascal, ifBlank: nothing, example: 20 },
      "highest fan pressure": {
        means: "highest calibrated fan pressure",
        unit: pascal,
        ifBlank: nothing,
        example: 300,
      },
      "zero flow below": {
        means: "fan pressure or flow up to which the fan counts as covered",
        unit: "as the column",
        ifBlank: "1 Pa of fan pressure, 0 of flow",
        example: 2,
      },
    },
  },
  {
    name: "The house in use",
    meanings: {
      storeys: { means: "storeys above ground", unit: "1 to 3", ifBlank: "needed by basic and enhanced", example: 2 },
      "shelter class": {
        means: "1 open to 5 sheltered, ASHRAE Fundamentals",
        unit: "1 to 5",
        ifBlank: "needed by basic and enhanced",
        example: 3,
      },
      flue: { means: "whether there is a flue", ifBlank: "needed by enhanced", example: "no" },
      foundation: { means: "kind of foundation", ifBlank: "needed by enhanced", example: "basement or slab" },
      "exposed sides": {
        means: "façades exposed to wind, EN ISO 13789",
        ifBlank: "needed by EN ISO 13789",
        example: "several",
      },
      shielding: {
        means: "shielding of the site, EN ISO 13789",
        ifBlank: "needed by EN ISO 13789",
        example: "moderate",
      },
      "supply flow": { means: "mechanical supply", ifBlank: "0", example: 120 },
      "extract flow": { means: "mechanical extract", ifBlank: "0", example: 120 },
      "weather and shielding factor": {
        means: "of the site, ASHRAE 62.2",
        unit: plain,
        ifBlank: "needed by ASHRAE 62.2",
        example: 0.7,
      },
    },
  },
];
