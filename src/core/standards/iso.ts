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

/** "About 10 Pa": the standard states no margin. 3 Pa is remembered for the lowest pressure and taken for the steps too, common practice, no source. */
const [leastAboutTen, mostAboutTen] = [{ lower: 7 }, { upper: 13 }];

/** "Reaches 3" and "is higher than 3" are both quoted; the cautious reading leaves Beaufort 2 as the last that is met. */
const belowThree = advisory({ upper: 2 }, weather, "M", "reaches 3 on the Beaufort scale");

/** ISO 9972:2015. */
export const iso9972: Profile = {
  edition: "ISO 9972:2015",
  procedure: "6",
  correction: stated("density", "C_L", "M", "air leakage coefficient at 20 °C and 101 325 Pa"),
  technique: stated("ordinary", "regression", "M", "least squares"),
  leakageArea: stated("ISO 9972 10 Pa", "effective leakage area", "C"),
  directions: { ...stated("both", "5.3.4 pressure sequence: both recommended", "C"), binding: false },
  checks: {
    ...checksOfEveryTest,
    ...baselineMeans(binding(fiveEitherWay, zeroFlow, "C")),
    count_dp0: advisory({ lower: 10 }, zeroFlow, "M", "at least 10 values over at least 30 s"),
    count: binding({ lower: 5 }, sequence, "C"),
    dp_min: binding(leastAboutTen, `${sequence}: about 10 Pa`, "M", "(10 ± 3) Pa"),
    dp_min_about: advisory({ lower: 10 }, `${sequence}: about 10 Pa`, "C"),
    dp0_of_min: binding({ upper: 20 }, `${sequence}: lowest at least 5 baselines`, "C"),
    dp_max: binding(highest, sequence, "C"),
    dp_step: advisory(mostAboutTen, `${sequence}: about 10 Pa, margin by common practice`, "C"),
    n: binding({ lower: 0.5, upper: 1 }, "regression", "C"),
    r2: binding({ lower: 0.98 }, "regression", "C"),
    height_dT: advisory({ upper: 250 }, weather, "M", "250 m·K"),
    wind: advisory({ upper: 3 }, weather, "C"),
    beaufort: belowThree,
  },
  stationWind: advisory({ upper: 6 }, weather, "C"),
};

/** EN 13829:2001, withdrawn, the predecessor of ISO 9972:2015 and still cited. */
export const en13829: Profile = {
  edition: "EN 13829:2001 (withdrawn)",
  correction: stated("density", "C_L", "M", "air leakage coefficient at standard conditions"),
  technique: stated("ordinary", "regression", "M", "least squares"),
  directions: {
    ...stated("both", "5.3.4 pressure sequence: both recommended", "M", "both directions"),
    binding: false,
  },
  checks: {
    ...checksOfEveryTest,
    ...baselineMeans(binding(fiveEitherWay, zeroFlow, "M", "shall be declared not valid")),
    count: binding({ lower: 5 }, sequence, "M", "at least five"),
    dp_min: binding({ lower: 10 }, sequence, "C"),
    dp0_of_min: binding({ upper: 20 }, `${sequence}: lowest at least 5 baselines`, "C"),
    dp_max: binding(highest, sequence, "M", "at least 50 Pa; 25 Pa"),
    dp_step: advisory(mostAboutTen, `${sequence}: about 10 Pa, margin by common practice`, "M", "10 Pa"),
    n: binding({ lower: 0.5, upper: 1 }, "regression", "M", "0.5 to 1"),
    height_dT: advisory({ upper: 500 }, weather, "M", "500 m·K"),
    wind: advisory({ upper: 3 }, weather, "M", "3 m/s near the ground"),
    beaufort: belowThree,
  },
  stationWind: advisory({ upper: 6 }, weather, "M", "6 m/s"),
};
