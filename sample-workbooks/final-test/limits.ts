/** What a limit is a limit of. */
export type Quantity = "air change rate" | "per envelope area" | "per floor area" | "leakage area per envelope area";

export interface Limit {
  readonly name: string;
  readonly quantity: Quantity;
  /** Pa. */
  readonly pressure: number;
  /** In the unit of the quantity: 1/h, m³/(h·m²) or cm²/m². */
  readonly limit: number;
  readonly published: string;
  readonly convention: "room by room" | "whole internal" | "not used";
  readonly directions: "both" | "either" | "depressurization";
  readonly source: string;
  /** C: read in a published text. M: from memory of the document. */
  readonly mark: "C" | "M";
}

/** 1 cfm/ft² is 0.3048 m/min, exactly. */
const perSquareFoot = 18.288;

/** Limits that programmes set; the sheet is the user's to change. Nothing rounds before comparing unless the decimals are typed in. */
export const limits: readonly Limit[] = [
  {
    name: "Passive house, new build",
    quantity: "air change rate",
    pressure: 50,
    limit: 0.6,
    published: "n50 ≤ 0.6 1/h",
    convention: "room by room",
    directions: "both",
    source: "Passive house criteria",
    mark: "C",
  },
  {
    name: "Passive house, retrofit",
    quantity: "air change rate",
    pressure: 50,
    limit: 1,
    published: "n50 ≤ 1.0 1/h",
    convention: "room by room",
    directions: "both",
    source: "Passive house criteria",
    mark: "C",
  },
  {
    name: "Passive house, large building",
    quantity: "per envelope area",
    pressure: 50,
    limit: 0.6,
    published: "q50 ≤ 0.6 m³/(h·m²)",
    convention: "not used",
    directions: "both",
    source: "Passive house criteria",
    mark: "M",
  },
  {
    name: "Phius",
    quantity: "per envelope area",
    pressure: 50,
    limit: 0.06 * perSquareFoot,
    published: "0.060 cfm50/ft²",
    convention: "not used",
    directions: "either",
    source: "Phius certification standard",
    mark: "C",
  },
  {
    name: "IECC 2021, zones 3 to 8",
    quantity: "air change rate",
    pressure: 50,
    limit: 3,
    published: "3.0 ACH50",
    convention: "whole internal",
    directions: "either",
    source: "IECC 2021, R402.4",
    mark: "C",
  },
  {
    name: "IECC 2021, zones 0 to 2",
    quantity: "air change rate",
    pressure: 50,
    limit: 5,
    published: "5.0 ACH50",
    convention: "whole internal",
    directions: "either",
    source: "IECC 2021, R402.4",
    mark: "C",
  },
  {
    name: "IECC 2024, zones 0 to 2",
    quantity: "air change rate",
    pressure: 50,
    limit: 4,
    published: "4.0 ACH50",
    convention: "whole internal",
    directions: "either",
    source: "IECC 2024, R402.5",
    mark: "M",
  },
  {
    name: "IECC 2024, zones 3 to 5",
    quantity: "air change rate",
    pressure: 50,
    limit: 3,
    published: "3.0 ACH50",
    convention: "whole internal",
    directions: "either",
    source: "IECC 2024, R402.5",
    mark: "M",
  },
  {
    name: "IECC 2024, zones 6 to 8",
    quantity: "air change rate",
    pressure: 50,
    limit: 2.5,
    published: "2.5 ACH50",
    convention: "whole internal",
    directions: "either",
    source: "IECC 2024, R402.5",
    mark: "M",
  },
  {
    name: "England, Part L 2021, at 50 Pa",
    quantity: "per envelope area",
    pressure: 50,
    limit: 8,
    published: "8.0 m³/(h·m²) at 50 Pa",
    convention: "not used",
    directions: "either",
    source: "Approved Document L, vol. 1, 2021",
    mark: "C",
  },
  {
    name: "England, Part L 2021, at 4 Pa",
    quantity: "per envelope area",
    pressure: 4,
    limit: 1.57,
    published: "1.57 m³/(h·m²) at 4 Pa",
    convention: "not used",
    directions: "either",
    source: "Approved Document L, vol. 1, 2021",
    mark: "C",
  },
  {
    name: "R-2000, air changes",
    quantity: "air change rate",
    pressure: 50,
    limit: 1.5,
    published: "1.5 ACH50",
    convention: "whole internal",
    directions: "depressurization",
    source: "R-2000 standard",
    mark: "M",
  },
  {
    name: "R-2000, leakage area",
    quantity: "leakage area per envelope area",
    pressure: 10,
    limit: 0.7,
    published: "0.7 cm²/m² at 10 Pa",
    convention: "not used",
    directions: "depressurization",
    source: "R-2000 standard",
    mark: "M",
  },
  {
    name: "Canada, NBC 2020 reference",
    quantity: "air change rate",
    pressure: 50,
    limit: 2.5,
    published: "2.5 ACH50",
    convention: "whole internal",
    directions: "depressurization",
    source: "National Building Code 2020, 9.36",
    mark: "C",
  },
  {
    name: "US Army Corps of Engineers",
    quantity: "per envelope area",
    pressure: 75,
    limit: 0.25 * perSquareFoot,
    published: "0.25 cfm/ft² at 75 Pa",
    convention: "not used",
    directions: "both",
    source: "Corps of Engineers test protocol",
    mark: "C",
  },
];
