import { advisory, binding, checksOfEveryTest, stated, type Profile } from "./profile";

/** 0.02 cfm/ft² in m³/(h·m²), that is ft/min in m/h. */
const twoHundredthsCfm = 0.02 * 60 * 0.3048;

/** Air leakage test protocol of the US Army Corps of Engineers, 2012. */
export const armyCorps: Profile = {
  edition: "US Army Corps protocol, 2012",
  correction: stated("density and viscosity", "calculation, as ASTM E779", "M", "calculated as in ASTM E779"),
  technique: stated("ordinary", "calculation, as ASTM E779", "M", "calculated as in ASTM E779"),
  directions: { ...stated("both", "test procedure", "M", "tested in both directions"), binding: true },
  checks: {
    ...checksOfEveryTest,
    count_dp0: advisory({ lower: 12 }, "bias pressure", "M", "twelve readings of the bias pressure"),
    reading_of_min: binding({ upper: 30 }, "bias pressure", "M", "30 % of the minimum test pressure"),
    count: binding({ lower: 10 }, "test procedure", "M", "at least ten data points"),
    dp_min: binding({ lower: 25 }, "test procedure", "M", "minimum test pressure of 25 Pa"),
    dp_max: binding({ lower: 50 }, "test procedure", "M", "maximum test pressure of at least 50 Pa"),
    dp_span: advisory({ lower: 25 }, "test procedure", "M", "at least 25 Pa between the lowest and the highest"),
    n: binding({ lower: 0.45, upper: 0.8 }, "calculation", "M", "exponent between 0.45 and 0.80"),
    r2: binding({ above: 0.98 }, "calculation", "M", "r² greater than 0.98"),
    ci_qE75: binding(
      { upper: twoHundredthsCfm },
      "calculation",
      "M",
      "95 % confidence interval, ± 0.02 cfm/ft² at 75 Pa",
    ),
  },
};

const cgsb = {
  technique: stated("weighted", "calculation", "M", "weighted by the square of the flow"),
  leakageArea: stated("equivalent 10 Pa", "equivalent leakage area", "M", "10 Pa, discharge coefficient 0.611"),
} as const;

const canadianWind = advisory({ upper: 20 / 3.6 }, "weather", "M", "20 km/h");

/** What both editions ask of the line through several readings. */
const canadianLine = {
  n: binding({ lower: 0.5, upper: 1 }, "calculation", "M", "exponent between 0.50 and 1.00"),
  r: binding({ lower: 0.99 }, "calculation", "M", "correlation coefficient of at least 0.990"),
  s_q10: binding({ upper: 7 }, "calculation", "M", "relative standard error of at most 7 %"),
} satisfies Profile["checks"];

/** CAN/CGSB-149.10-M86, superseded; the edition that building programmes long named. */
export const cgsb14910: Profile = {
  ...cgsb,
  edition: "CAN/CGSB-149.10-M86 (superseded)",
  correction: stated("density", "calculation", "M", "corrected to standard conditions"),
  directions: { ...stated("depressurization", "procedure", "M", "fan depressurization method"), binding: true },
  checks: {
    ...checksOfEveryTest,
    ...canadianLine,
    count: binding({ lower: 8 }, "procedure", "M", "50, 45, … 15 Pa"),
    dp_min: binding({ lower: 15 }, "procedure", "M", "50, 45, … 15 Pa"),
    dp_max: binding({ lower: 50 }, "procedure", "M", "50, 45, … 15 Pa"),
    dp_step: advisory({ upper: 5 }, "procedure", "M", "50, 45, … 15 Pa"),
    wind: canadianWind,
  },
  stationWind: canadianWind,
};

const cgsb2019 = {
  ...cgsb,
  edition: "CAN/CGSB-149.10-2019",
  correction: stated("density", "calculation", "M", "corrected to reference conditions"),
  directions: { ...stated("depressurization", "title: by the fan depressurization method", "C"), binding: true },
  stationWind: canadianWind,
} as const;

/** CAN/CGSB-149.10-2019, multi-point test. What is not known to have changed since M86 is kept and says so. */
export const cgsb14910of2019: Profile = {
  ...cgsb2019,
  checks: {
    ...checksOfEveryTest,
    ...canadianLine,
    count: binding({ lower: 8 }, "multi-point test, as M86", "M", "number of pressure differences"),
    dp_min: binding({ lower: 15 }, "multi-point test, as M86", "M", "lowest pressure difference"),
    dp_max: binding({ lower: 50 }, "multi-point test, as M86", "M", "highest pressure difference, up to 60 Pa"),
    wind: canadianWind,
  },
};

/** CAN/CGSB-149.10-2019, one- and two-point tests: the highest pressure is 50 ± 3 Pa. */
export const cgsb14910OnePoint: Profile = {
  ...cgsb2019,
  technique: stated("ordinary", "single-point test: no line", "M", "assumed flow exponent"),
  checks: {
    ...checksOfEveryTest,
    count: binding({ lower: 1 }, "single-point and two-point test", "M", "number of readings at 50 Pa"),
    dp_max: binding({ lower: 47, upper: 53 }, "single-point and two-point test", "M", "50 ± 3 Pa"),
    wind: canadianWind,
  },
};

const resnet = {
  edition: "ANSI/RESNET/ICC 380-2019",
  // Its factors for altitude and temperature correct the same: density of the air at the device and in the leaks, n 0.65.
  correction: stated(
    "density",
    "corrections for altitude and temperature, here by the densities",
    "M",
    "1 + 0.000006 × altitude in ft; table of temperature factors",
  ),
  leakageArea: stated("effective 4 Pa", "effective leakage area", "M", "4 Pa"),
  directions: { ...stated("either", "pressurization or depressurization", "C"), binding: false },
} as const;

/** ANSI/RESNET/ICC 380: one point at 50 Pa, n assumed 0.65; below 50 Pa the highest pressure that is reached, not less than 15 Pa. */
export const resnetIcc380: Profile = {
  ...resnet,
  technique: stated("ordinary", "4.4.1 one-point test: no line", "M", "flow exponent of 0.65"),
  checks: {
    ...checksOfEveryTest,
    dp0_range: advisory({ upper: 5 }, "baseline: standard test; above, reduced accuracy", "M", "5 Pa"),
    count: binding({ lower: 1 }, "4.4.1 one-point test", "M", "induced pressure of 50 Pa"),
    dp_min: binding({ lower: 15 }, "4.4.1 one-point test", "M", "at least 15 Pa"),
    dp_max: advisory({ lower: 47 }, "4.4.1 one-point test", "M", "50 ± 3 Pa"),
  },
};

/** ANSI/RESNET/ICC 380, several points and a line. */
export const resnetIcc380MultiPoint: Profile = {
  ...resnet,
  technique: stated("ordinary", "4.4.2 multi-point test", "M", "calculated by ASTM E779"),
  checks: {
    ...checksOfEveryTest,
    count: binding({ lower: 5 }, "4.4.2 multi-point test", "M", "number of measurements"),
    dp_min: binding({ lower: 10 }, "4.4.2 multi-point test", "M", "from 10 to 60 Pa"),
    dp_max: advisory({ lower: 60 }, "4.4.2 multi-point test", "M", "60 Pa, or the highest pressure reached"),
    n: advisory({ lower: 0.5, upper: 1 }, "flow exponent", "practice"),
    ci_q50: advisory({ upper: 10 }, "accuracy: standard test; above, reduced accuracy", "M", "10 % uncertainty"),
  },
};
