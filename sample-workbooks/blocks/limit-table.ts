import { writeTypedTable } from "./form";
import { writeHeading } from "./heading";
import type { Sheet } from "./sheet";
import { decimals, native, palette, style } from "./style";
import { metric, type Units } from "./units";
import { between, oneOf, text, wholeBetween } from "./validation";

/** What a limit is a limit of. */
type Quantity = "air change rate" | "per envelope area" | "per floor area" | "leakage area per envelope area";

interface Limit {
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
const limits: readonly Limit[] = [
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
    source: "Approved Doc. L, vol. 1, 2021",
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
    source: "Approved Doc. L, vol. 1, 2021",
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
    source: "NBC of Canada 2020, 9.36",
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

const heads = 17;

/** Rows of the limits, spare ones included. */
export const limitRows = { first: 18, last: 35 } as const;

/** The column of the table in which each property stands. */
export const limitColumns = {
  name: "B",
  quantity: "C",
  pressure: "D",
  limit: "E",
  unit: "F",
  decimals: "G",
  convention: "H",
  directions: "I",
  published: "J",
  source: "K",
  mark: "L",
} as const;

const quantities = ["air change rate", "per envelope area", "per floor area", "leakage area per envelope area"];

/** A limit in the units of the sheet, as many digits as the conversion leaves sure. */
function inUnits({ quantity, limit }: Limit, { in: unit, system }: Units): number {
  if (system === "SI" || quantity === "air change rate") return limit;
  const one = quantity === "leakage area per envelope area" ? unit.leakagePerArea : unit.perArea;
  return Number((limit / one).toPrecision(12));
}

/** Widths of the columns of a sheet with the table, A to L. */
export const limitTableWidths = [1.5, 27.5, 28.5, 9, 6.5, 9, 7.5, 13, 16, 19.5, 29, 4.5];

/** The limits, all of them the user's to change; the row that is chosen stands out. */
export function writeLimitTable(sheet: Sheet, chosen: string, units: Units = metric): void {
  const { first, last } = limitRows;
  writeHeading(sheet, heads - 2, ["B", "L"], "Limits");
  const typed = (property: keyof Limit) => (index: number) => limits[index]?.[property];
  const names = text(`B${first}:B${last}`, "Criterion", "A name of your choice; each name once.", 60);
  writeTypedTable(sheet, {
    heads,
    left: "B",
    rows: last - first + 1,
    columns: [
      { head: "<criterion", typed: typed("name"), rule: () => names },
      {
        head: "<quantity",
        typed: typed("quantity"),
        rule: (range) => oneOf(range, quantities, "Quantity", "What is limited. The unit follows."),
      },
      {
        head: "reference|pressure, Pa",
        typed: typed("pressure"),
        format: decimals(0),
        rule: (range) =>
          between(
            range,
            1,
            100,
            "Reference pressure, Pa",
            "The pressure at which the limit holds. Leakage areas are given at 10 Pa.",
          ),
      },
      {
        head: "limit",
        typed: (index) => (limits[index] ? inUnits(limits[index], units) : null),
        format: "0.0##",
        rule: (range) =>
          between(range, 0.0001, 1000, "Limit", "The largest result that passes, in the unit beside it."),
      },
      {
        head: "<<unit",
        formula: (row) =>
          `IF(C${row}="air change rate","1/h",IF(C${row}="leakage area per envelope area","${units.leakagePerArea}",IF(C${row}="","","${units.perArea}")))`,
        look: style({ size: 8, colour: palette.grey, indent: 1 }, native(undefined, "left")),
      },
      {
        head: "^decimals",
        align: "right",
        format: decimals(0),
        rule: (range) =>
          wholeBetween(
            range,
            0,
            4,
            "Decimals",
            "Blank: compare unrounded. A number: round once to so many decimals first.",
          ),
      },
      {
        head: "<volume|convention",
        typed: typed("convention"),
        rule: (range) =>
          oneOf(
            range,
            ["room by room", "whole internal", "not used"],
            "Volume convention",
            "Which volume the limit means; not used where it is per area.",
          ),
      },
      {
        head: "<directions",
        typed: typed("directions"),
        rule: (range) =>
          oneOf(
            range,
            ["both", "either", "depressurization"],
            "Directions",
            "Both: the mean of two. Either: one is enough, two are averaged.",
          ),
      },
      { head: "<as published", typed: typed("published"), rule: sourceRule },
      { head: "<source", typed: typed("source"), rule: sourceRule },
      {
        head: "<mark",
        typed: typed("mark"),
        rule: (range) =>
          oneOf(range, ["C", "M"], "Mark", "C: read in a published text. M: from memory, check your own copy."),
      },
    ],
  });
  sheet.keep(`B${first}:L${last}`);
  sheet.when(`B${first}:L${last}`, `AND($B${first}<>"",$B${first}=${chosen})`, {
    font: { bold: true, color: { rgb: palette.petrol } },
  });
}

function sourceRule(range: string) {
  return text(range, "Source", "The words and the document of the limit, with its edition.", 120);
}
