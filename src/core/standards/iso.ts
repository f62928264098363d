import { advisory, binding, checksOfEveryTest, stated, type Limit, type Profile } from "./profile";

const sequence = "5.3.4 pressure sequence";
const zeroFlow = "zero-flow pressure difference";
const weather = "meteorological conditions";

function baselineMeans(limit: Limit): Profile["checks"] {
  return { "dp01+": limit, "dp01-": limit, "dp02+": limit, "dp02-": limit };
}

const fiveEitherWay = { lower: -5, upper: 5 };

/** Limits of pressure: between 25 and 50 Pa a test counts only with a reason that is stated in the report. */
const highest = { lower: 50, lowerWithReason: 25 };

/** ISO 9972:2015. */
export const iso9972: Profile = {
  edition: "ISO 9972:2015",
  procedure: "6",
  correction: stated("density", "C_L", "M"),
  technique: stated("ordinary", "regression", "M"),
  leakageArea: stated("ISO 9972 10 Pa", "effective leakage area", "C"),
  directions: { ...stated("both", "5.3.4 pressure sequence: both recommended", "C"), binding: false },
  checks: {
    ...checksOfEveryTest,
    ...baselineMeans(binding(fiveEitherWay, zeroFlow, "C")),
    count: binding({ lower: 5 }, sequence, "C"),
    dp_min: binding({ lower: 10 }, sequence, "C"),
    dp0_of_min: binding({ upper: 20 }, `${sequence}: lowest at least 5 baselines`, "M"),
    dp_max: binding(highest, sequence, "C"),
    dp_step: advisory({ upper: 10 }, `${sequence}: about`, "C"),
    n: binding({ lower: 0.5, upper: 1 }, "regression", "C"),
    r2: binding({ lower: 0.98 }, "regression", "C"),
    height_dT: advisory({ upper: 250 }, weather, "M"),
    wind: advisory({ upper: 3 }, weather, "C"),
    beaufort: advisory({ upper: 3 }, weather, "C"),
  },
  stationWind: advisory({ upper: 6 }, weather, "C"),
};

/** EN 13829:2001, withdrawn, the predecessor of ISO 9972:2015 and still cited. */
export const en13829: Profile = {
  edition: "EN 13829:2001 (withdrawn)",
  correction: stated("density", "C_L", "M"),
  technique: stated("ordinary", "regression", "M"),
  directions: { ...stated("both", "5.3.4 pressure sequence: both recommended", "M"), binding: false },
  checks: {
    ...checksOfEveryTest,
    ...baselineMeans(binding(fiveEitherWay, zeroFlow, "M")),
    count: binding({ lower: 5 }, sequence, "M"),
    dp_min: binding({ lower: 10 }, sequence, "M"),
    dp0_of_min: binding({ upper: 20 }, `${sequence}: lowest at least 5 baselines`, "M"),
    dp_max: binding(highest, sequence, "M"),
    dp_step: advisory({ upper: 10 }, `${sequence}: about`, "M"),
    n: binding({ lower: 0.5, upper: 1 }, "regression", "M"),
    height_dT: advisory({ upper: 500 }, weather, "M"),
    wind: advisory({ upper: 3 }, weather, "M"),
    beaufort: advisory({ upper: 3 }, weather, "M"),
  },
  stationWind: advisory({ upper: 6 }, weather, "M"),
};
