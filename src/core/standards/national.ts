import { advisory, binding, checksOfEveryTest, stated, type Profile } from "./profile";

/** Air leakage test protocol of the US Army Corps of Engineers, 2012. */
export const armyCorps: Profile = {
  edition: "US Army Corps protocol, 2012",
  correction: stated("density and viscosity", "calculation, as ASTM E779", "M"),
  technique: stated("ordinary", "calculation, as ASTM E779", "M"),
  directions: { ...stated("both", "test procedure", "M"), binding: true },
  checks: {
    ...checksOfEveryTest,
    count_dp0: advisory({ lower: 12 }, "test procedure: bias pressure", "M"),
    reading_of_min: binding({ upper: 30 }, "test procedure: bias pressure", "M"),
    count: binding({ lower: 10 }, "test procedure", "M"),
    dp_min: binding({ lower: 25 }, "test procedure", "C"),
    dp_max: binding({ lower: 50 }, "test procedure", "C"),
    dp_span: advisory({ lower: 25 }, "test procedure", "M"),
    n: binding({ lower: 0.45, upper: 0.8 }, "calculation", "M"),
    r2: binding({ lower: 0.98 }, "calculation", "M"),
  },
};

/** CAN/CGSB-149.10-M86, superseded; the edition that building programmes long named. */
export const cgsb14910: Profile = {
  edition: "CAN/CGSB-149.10-M86 (superseded)",
  correction: stated("density", "calculation", "M"),
  technique: stated("weighted", "calculation: weights q²", "M"),
  leakageArea: stated("equivalent 10 Pa", "equivalent leakage area", "M"),
  directions: { ...stated("depressurization", "procedure", "M"), binding: true },
  checks: {
    ...checksOfEveryTest,
    count: binding({ lower: 8 }, "procedure: 50 to 15 Pa", "M"),
    dp_min: binding({ lower: 15 }, "procedure: 50 to 15 Pa", "M"),
    dp_max: binding({ lower: 50 }, "procedure: 50 to 15 Pa", "M"),
    dp_step: advisory({ upper: 5 }, "procedure: steps of 5 Pa", "M"),
    n: binding({ lower: 0.5, upper: 1 }, "calculation", "M"),
    r: binding({ lower: 0.99 }, "calculation", "M"),
    s_q10: binding({ upper: 7 }, "calculation", "M"),
    wind: advisory({ upper: 20 / 3.6 }, "weather: 20 km/h", "M"),
  },
  stationWind: advisory({ upper: 20 / 3.6 }, "weather: 20 km/h", "M"),
};

/** ANSI/RESNET/ICC 380: one point at 50 Pa, n assumed 0.65; below 50 Pa the highest pressure that is reached, not less than 15 Pa. */
export const resnetIcc380: Profile = {
  edition: "ANSI/RESNET/ICC 380-2019",
  correction: stated("density", "corrections for temperature and altitude", "M"),
  technique: stated("ordinary", "no line: one point", "M"),
  leakageArea: stated("effective 4 Pa", "effective leakage area", "M"),
  directions: { ...stated("either", "one-point test", "C"), binding: false },
  checks: {
    ...checksOfEveryTest,
    count: binding({ lower: 1 }, "one-point test", "M"),
    dp_min: binding({ lower: 15 }, "one-point test", "M"),
    dp_max: advisory({ lower: 50 }, "one-point test", "M"),
  },
};
