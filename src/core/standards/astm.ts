import { advisory, binding, checksOfEveryTest, stated, type Profile } from "./profile";

const areaAtFour = stated("effective 4 Pa", "effective leakage area", "M", "4 Pa, discharge coefficient 1");

/** Weather that E779 and E1827 prefer. */
const preferredWeather = {
  wind: advisory({ upper: 2 }, "preferred test conditions", "M", "wind speed of 0 to 2 m/s"),
  theta_e: advisory({ lower: 5, upper: 35 }, "preferred test conditions", "M", "outside temperature from 5 to 35 °C"),
} satisfies Profile["checks"];

/** ASTM E779-19. */
export const astmE779: Profile = {
  edition: "ASTM E779-19",
  correction: stated("density and viscosity", "C0", "M", "viscosity and density of air, exponent 2n − 1 and 1 − n"),
  technique: stated("ordinary", "data analysis", "M", "unweighted log-linearized linear regression"),
  leakageArea: areaAtFour,
  directions: { ...stated("both", "1 scope", "C"), binding: true },
  checks: {
    ...checksOfEveryTest,
    ...preferredWeather,
    count: binding({ lower: 5 }, "8 procedure", "M", "at least five data points"),
    dp_min: binding({ lower: 10 }, "8 procedure", "M", "from 10 to 60 Pa"),
    dp_max: advisory({ upper: 60 }, "8 procedure: as the fan allows", "M", "from 10 to 60 Pa"),
    dp_step: advisory({ upper: 10 }, "8 procedure", "M", "increments of 5 to 10 Pa"),
    n: binding({ lower: 0.5, upper: 1 }, "9 data analysis", "M", "exponent less than 0.5 or greater than 1"),
    height_dT: binding({ upper: 200 }, "8 procedure", "M", "greater than 200 m·°C, do not perform the test"),
  },
};

/** ASTM E1827-22: repeated readings at 50 Pa, or at 50 and 12.5 Pa; a line through many pressures belongs to E779. */
export const astmE1827: Profile = {
  edition: "ASTM E1827-22",
  correction: stated("density", "terminology: corrected for a standard air density", "C"),
  technique: stated("ordinary", "data analysis", "M", "no line: one or two pressures"),
  leakageArea: areaAtFour,
  directions: { ...stated("either", "1 scope", "C"), binding: false },
  checks: {
    ...checksOfEveryTest,
    ...preferredWeather,
    count: binding({ lower: 5 }, "procedure", "M", "five repeats at each pressure"),
    // The mean of repeats near 50 Pa need not reach it; the margin of 3 Pa is common practice, no source.
    dp_max: advisory({ lower: 47 }, "procedure: about 50 Pa, margin by common practice", "M", "primary pressure 50 Pa"),
    height_dT: advisory({ upper: 200 }, "test conditions", "M", "200 m·°C"),
  },
};

/** ASTM E3158-18, large and multizone buildings, several readings and a line. */
export const astmE3158: Profile = {
  edition: "ASTM E3158-18",
  correction: stated("density and viscosity", "data analysis", "M", "corrections for density and viscosity"),
  technique: stated("ordinary", "data analysis", "M", "regression of the multipoint test"),
  directions: { ...stated("either", "1.6 scope: pressurized, depressurized or both", "C"), binding: false },
  checks: {
    ...checksOfEveryTest,
    count: binding({ lower: 5 }, "multipoint procedure", "C"),
    dp_min: binding({ lower: 25 }, "multipoint procedure", "C"),
    dp0_of_min: binding({ upper: 30 }, "baseline pressure", "M", "30 % of the lowest induced pressure"),
    dp_max: binding({ lower: 50 }, "multipoint procedure", "C"),
    n: binding({ lower: 0.45, upper: 1 }, "9.5.1", "C"),
  },
};
