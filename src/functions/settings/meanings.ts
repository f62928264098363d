import type { Labels } from "./labels";

/** Labels that belong together, each with what it means; its unit and its words are those of the label itself. */
export interface LabelGroup {
  readonly name: string;
  readonly meanings: { readonly [Label in keyof Labels]?: string };
}

/** Every label once, in the order in which a tester fills them in. Not part of functions.js: for the pages alone. */
export const labelGroups: readonly LabelGroup[] = [
  {
    name: "Building",
    meanings: {
      volume: "internal volume V; with it the result is n50",
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
      "barometric pressure": "at the site, not reduced to sea level; else from the altitude, else 101 325 Pa",
      altitude: "altitude of the site, where no barometer was read",
      "indoor humidity": "relative, a fraction; 0.5 where not given",
      "outdoor humidity": "relative, a fraction; 0.5 where not given",
      "air density": "formula of the air density",
    },
  },
  {
    name: "Readings",
    meanings: {
      "flow basis": "what the column of flows holds",
      "calibration density": "air density of the flow device's calibration; 1.2041 kg/m³ where not given",
      "pressure sign": "how the pressure readings are signed",
      "time of baseline before": "middle of the baseline before, in the unit of the readings' times",
      "time of baseline after": "middle of the baseline after, in the same unit",
      openings: "opening of the fan for each reading, one letter each, such as AAABBB",
    },
  },
  {
    name: "Evaluation",
    meanings: {
      standard: "standard that the test is evaluated and judged by",
      technique: "how the line is fitted; the standard's own where not given",
      "pressure uncertainty": "random error of a pressure reading, standard, Pa",
      "flow uncertainty": "random error of a flow reading, standard, a fraction",
      confidence: "level of the limits; 0.95 where not given",
      "reference pressure": "pressure of a further result or of a limit, Pa",
      units: "units of what goes in and comes out",
      headings: "a heading row above the table",
    },
  },
  {
    name: "Limit",
    meanings: {
      quantity: "what the limit is a limit of",
      "flow degrees of freedom": "degrees of freedom of the flow's uncertainty in a forecast; infinite where not given",
      exponent: "n that carries a flow to another pressure; 0.65 where not given",
      "leakage area definition": "definition of the leakage area that is limited",
    },
  },
  {
    name: "Validity",
    meanings: {
      "wind speed": "wind during the test",
      "wind place": "where the wind speed holds",
      beaufort: "wind by the Beaufort scale",
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
      "budget quantity": "result that the budget is made for; n50 or q50 where not given",
      "gauge accuracy": "gain of the pressure gauge, half-width, a fraction",
      "gauge zero": "zero shift of the pressure gauge after the baseline, half-width, Pa",
      "gauge resolution": "smallest step of the pressure gauge, Pa",
      "fan gauge accuracy": "gain of the fan pressure gauge, half-width, a fraction",
      "fan gauge zero": "zero of the fan pressure gauge, half-width, Pa",
      "gauges of one calibration": "whether both gauges share their gain",
      "fan pressure at lowest flow":
        "fan pressure of the reading with the lowest flow, Pa; one for each opening with ; between them",
      "pivot fan pressure": "fan pressure about which the calibration's exponent turns, Pa",
      "fan exponent uncertainty": "exponent of the fan's calibration, standard",
      "flow calibration uncertainty": "flow calibration of all openings together, standard, a fraction",
      "opening calibration uncertainty": "flow calibration of one opening, standard, a fraction",
      "indoor temperature uncertainty": "standard, in degrees",
      "outdoor temperature uncertainty": "standard, in degrees",
      "barometer uncertainty": "standard",
      "humidity accuracy": "relative humidities, half-width, a fraction",
      "volume uncertainty": "standard, a fraction",
      "envelope area uncertainty": "standard, a fraction",
      "floor area uncertainty": "standard, a fraction",
      "size degrees of freedom": "degrees of freedom of the volume or area; 50 where not given",
      "baseline uncertainty":
        "mean of the baseline readings before and of those after, standard, Pa; from the readings where not given",
      "baseline degrees of freedom": "degrees of freedom of the baseline uncertainty",
      "baseline before uncertainty": "the same of the baseline before alone",
      "baseline before degrees of freedom": "degrees of freedom of that uncertainty",
      "baseline after uncertainty": "the same of the baseline after alone",
      "baseline after degrees of freedom": "degrees of freedom of that uncertainty",
      "baseline shared": "whether the same baseline serves both directions",
      "wind coefficient": "difference of the wind pressure coefficients of two façades; 1 where not given",
      "offset share": "share of wind and stack pressure left in the readings; 0.1 where not given",
      "extrapolation allowance":
        'change of n per unit of ln Δp beyond the readings, half-width; 0.095 where not given; "none" leaves it out',
      "monte carlo trials": "trials of the check by simulation; none where not given",
      "monte carlo seed": "start of the random numbers, so that a run can be repeated",
    },
  },
  {
    name: "Log",
    meanings: {
      columns: 'what each column holds, in order: "time, pressure, fan pressure, state"',
      "time unit": "unit of the column of times",
      tolerance: "band of a steady pressure, to each side, Pa; 1.5 where not given",
      "shortest station": "seconds that a station lasts at least; 15 where not given",
      "fan coefficient": "c of the opening, in the unit of flow",
      "fan exponent": "m of the opening",
      "lowest fan pressure": "lowest calibrated fan pressure, Pa",
      "highest fan pressure": "highest calibrated fan pressure, Pa",
      "zero flow below": "fan pressure or flow up to which the fan counts as covered; 1 Pa or 0 where not given",
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
