import type { Labels } from "./labels";

/** Labels that belong together, each with its meaning; labels.ts has its unit and its words. */
export interface LabelGroup {
  readonly name: string;
  readonly meanings: { readonly [Label in keyof Labels]?: string };
}

/** Every label once, in the order in which a tester fills them in. Used by the pages only, not part of functions.js. */
export const labelGroups: readonly LabelGroup[] = [
  {
    name: "Building",
    meanings: {
      volume: "internal volume V; needed for n50",
      "envelope area": "envelope area A_E, all six sides",
      "floor area": "floor area A_F",
      "building height": "height of the building above ground",
      "volume convention": "how the volume was measured, for the record",
    },
  },
  {
    name: "Air",
    meanings: {
      "indoor temperature": "air indoors during the test",
      "outdoor temperature": "air outdoors during the test",
      "barometric pressure": "at the site, not reduced to sea level; if not given from the altitude, else 101 325 Pa",
      altitude: "altitude of the site, if no barometer was read",
      "indoor humidity": "relative, a fraction; 0.5 if not given",
      "outdoor humidity": "relative, a fraction; 0.5 if not given",
      "air density": "formula for the air density",
    },
  },
  {
    name: "Readings",
    meanings: {
      "flow basis": "what kind of flow the column holds",
      "calibration density": "air density of the flow device's calibration; 1.2041 kg/m³ if not given",
      "pressure sign": "how the pressure readings are signed",
      "time of baseline before": "middle of the baseline before, in the unit of the readings' times",
      "time of baseline after": "middle of the baseline after, in the same unit",
      openings:
        'fan opening of each reading: their names, separated by ;, as in "opening names", or a letter each, such as AAABBB; one name for all',
      "opening names": "the fan's openings, at most eight, in the order of its certificate, separated by ;",
    },
  },
  {
    name: "Evaluation",
    meanings: {
      standard: "standard by which the test is evaluated and judged",
      technique: "how the line is fitted; the standard's own if not given",
      "pressure uncertainty": "random error of a pressure reading, as a standard uncertainty, Pa",
      "flow uncertainty": "random error of a flow reading, as a standard uncertainty, a fraction",
      confidence: "confidence level of the limits; 0.95 if not given",
      "reference pressure": "pressure of an additional result or of a limit, Pa",
      units: "units of inputs and results",
      headings: "a heading row above the table",
    },
  },
  {
    name: "Limit",
    meanings: {
      quantity: "quantity that the limit applies to",
      "flow degrees of freedom": "degrees of freedom of the flow's uncertainty in a forecast; infinite if not given",
      exponent: "n used to convert a flow to another pressure; 0.65 if not given",
      "leakage area definition": "definition of the leakage area that the limit applies to",
    },
  },
  {
    name: "Validity",
    meanings: {
      "wind speed": "wind during the test",
      "wind place": "where the wind speed was measured",
      beaufort: "wind on the Beaufort scale",
      "test date": "day of the test",
      "gauge certificate valid until": "last day of the pressure gauge's certificate",
      "flow device certificate valid until": "last day of the flow device's certificate",
      "q50 of the other direction": "flow at 50 Pa of the other direction",
      "low pressure reason": "why the highest pressure was not reached",
    },
  },
  {
    name: "Uncertainty budget",
    meanings: {
      "budget quantity": "result for which the budget is drawn up; n50 or q50 if not given",
      "gauge accuracy": "gain of the pressure gauge, half-width, a fraction",
      "gauge zero": "zero shift of the pressure gauge after the baseline, half-width, Pa",
      "gauge resolution": "smallest step of the pressure gauge, Pa",
      "fan gauge accuracy": "gain of the fan pressure gauge, half-width, a fraction",
      "fan gauge zero": "zero of the fan pressure gauge, half-width, Pa",
      "gauges of one calibration": "whether both gauges share one calibration of their gain",
      "fan pressure at lowest flow":
        "fan pressure of the reading with the lowest flow, Pa; one per opening, separated by ;",
      "pivot fan pressure":
        "fan pressure about which the calibration curve pivots, Pa; one per opening, separated by ;",
      "fan exponent uncertainty":
        "exponent of the fan's calibration, standard uncertainty; one per opening, separated by ;",
      "flow calibration uncertainty": "flow calibration common to all openings, standard uncertainty, a fraction",
      "opening calibration uncertainty":
        "flow calibration of a single opening, standard uncertainty, a fraction; one per opening, separated by ;",
      "indoor temperature uncertainty": "standard uncertainty, in degrees",
      "outdoor temperature uncertainty": "standard uncertainty, in degrees",
      "barometer uncertainty": "standard uncertainty",
      "humidity accuracy": "relative humidities, half-width, a fraction",
      "volume uncertainty": "standard uncertainty, a fraction",
      "envelope area uncertainty": "standard uncertainty, a fraction",
      "floor area uncertainty": "standard uncertainty, a fraction",
      "size degrees of freedom": "degrees of freedom of the volume or area; 50 if not given",
      "baseline uncertainty":
        "standard uncertainty of the mean of the baseline before and of that after, Pa; from the readings if not given",
      "baseline degrees of freedom": "degrees of freedom of the baseline uncertainty",
      "baseline before uncertainty": "the same for the baseline before only",
      "baseline before degrees of freedom": "degrees of freedom of that uncertainty",
      "baseline after uncertainty": "the same for the baseline after only",
      "baseline after degrees of freedom": "degrees of freedom of that uncertainty",
      "baseline shared": "whether the same baseline serves both directions",
      "wind coefficient": "difference between the wind pressure coefficients of two façades; 1 if not given",
      "offset share": "share of wind and stack pressure left in the readings; 0.1 if not given",
      "extrapolation allowance":
        'change of n per unit of ln Δp beyond the readings, half-width; 0.095 if not given; "none" omits it',
      "monte carlo trials": "number of trials of the Monte Carlo check; none if not given",
      "monte carlo seed": "seed of the random numbers, so that a run can be repeated",
    },
  },
  {
    name: "Log",
    meanings: {
      columns: 'what each column holds, in order: "time, pressure, fan pressure, state"',
      "time unit": "unit of the time column",
      tolerance: "band within which a pressure counts as steady, to each side, Pa; 1.5 if not given",
      "shortest station": "shortest duration of a station, s; 15 if not given",
      "fan coefficient": "c of the opening, in the unit of flow",
      "fan exponent": "m of the opening",
      "lowest fan pressure": "lowest calibrated fan pressure, Pa",
      "highest fan pressure": "highest calibrated fan pressure, Pa",
      "zero flow below": "fan pressure or flow up to which the fan counts as covered; 1 Pa or 0 if not given",
    },
  },
  {
    name: "The house in use",
    meanings: {
      storeys: "storeys above ground",
      "shelter class": "1 open to 5 sheltered, ASHRAE Fundamentals",
      flue: "whether there is a flue",
      foundation: "kind of foundation",
      "exposed sides": "façades exposed to wind, EN ISO 13789",
      shielding: "shielding of the site, EN ISO 13789",
      "supply flow": "mechanical supply",
      "extract flow": "mechanical extract",
      "weather and shielding factor": "of the site, ASHRAE 62.2",
    },
  },
];
