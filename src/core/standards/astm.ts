import { advisory, binding, checksOfEveryTest, stated, type Profile } from "./profile";

/** ASTM E779-19. */
export const astmE779: Profile = {
  edition: "ASTM E779-19",
  correction: stated("density and viscosity", "C0", "M"),
  technique: stated("ordinary", "data analysis", "M"),
  leakageArea: stated("effective 4 Pa", "effective leakage area", "M"),
  directions: { ...stated("both", "1 scope", "C"), binding: true },
  checks: {
    ...checksOfEveryTest,
    count: binding({ lower: 5 }, "procedure", "M"),
    dp_min: binding({ lower: 10 }, "procedure", "M"),
    dp_max: advisory({ upper: 60 }, "procedure: range of 10 to 60 Pa as the fan allows", "M"),
    dp_step: advisory({ upper: 10 }, "procedure: steps of 5 to 10 Pa", "M"),
    n: binding({ lower: 0.5, upper: 1 }, "data analysis", "M"),
    height_dT: advisory({ upper: 200 }, "test conditions", "M"),
    wind: advisory({ upper: 2 }, "preferred test conditions", "M"),
  },
};

/** ASTM E1827-22: repeated readings at 50 Pa, or at 50 and 12.5 Pa; a line through many pressures belongs to E779. */
export const astmE1827: Profile = {
  edition: "ASTM E1827-22",
  correction: stated("density", "terminology: corrected for a standard air density", "C"),
  technique: stated("ordinary", "data analysis", "M"),
  leakageArea: stated("effective 4 Pa", "effective leakage area", "M"),
  directions: { ...stated("either", "1 scope", "C"), binding: false },
  checks: {
    ...checksOfEveryTest,
    count: binding({ lower: 5 }, "procedure: five repeats", "M"),
    dp_max: advisory({ lower: 50 }, "procedure: primary pressure", "M"),
    height_dT: advisory({ upper: 200 }, "test conditions", "M"),
    wind: advisory({ upper: 2 }, "preferred test conditions", "M"),
  },
};

/** ASTM E3158-18, large and multizone buildings, several readings and a line. */
export const astmE3158: Profile = {
  edition: "ASTM E3158-18",
  correction: stated("density and viscosity", "data analysis", "M"),
  technique: stated("ordinary", "data analysis", "M"),
  directions: { ...stated("either", "1.6 scope: pressurized, depressurized or both", "C"), binding: false },
  checks: {
    ...checksOfEveryTest,
    count: binding({ lower: 5 }, "multipoint procedure", "C"),
    dp_min: binding({ lower: 25 }, "multipoint procedure", "C"),
    dp_max: binding({ lower: 50 }, "multipoint procedure", "C"),
    n: binding({ lower: 0.45, upper: 1 }, "9.5.1", "C"),
  },
};
