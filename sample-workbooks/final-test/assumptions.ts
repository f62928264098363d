import { onSheet } from "../blocks/address";
import type { Units } from "../blocks/units";
import { sheets } from "./layout";

/** One assumption of the budget, by the label of its setting; what is blank is left to the function, which says so in its row. */
interface Assumption {
  readonly label: string;
  /** What it is, for a tester. */
  readonly what: string;
  readonly value: number | string | null;
  readonly unit: string;
  /** Where the number comes from. */
  readonly basis: string;
  readonly format: string;
  readonly highest?: number;
  readonly words?: readonly string[];
}

const certificate = "certificate";
const common = "common practice, no source";
const share = "0.000##";

/** What the budget of uncertainty takes as known, in the units of the form; half-widths unless they are called standard uncertainties. */
export function assumptionsIn({ in: unit, difference, barometer, system, digits }: Units): readonly Assumption[] {
  const kelvin = (value: number) => (system === "SI" ? value : value * 1.8);
  const fraction = (label: string, what: string, value: number | null, basis: string): Assumption => ({
    label,
    what,
    value,
    unit: "fraction",
    basis,
    format: share,
    highest: 0.5,
  });
  const pascal = (label: string, what: string, value: number | null, basis: string): Assumption => ({
    label,
    what,
    value,
    unit: "Pa",
    basis,
    format: "0.0##",
    highest: 20,
  });
  return [
    fraction("gauge accuracy", "Envelope gauge, gain: half-width", 0.01, certificate),
    pascal("gauge zero", "Envelope gauge, shift of zero after the baseline: half-width", 0.1, common),
    pascal("gauge resolution", "Envelope gauge, last digit", 0.1, certificate),
    fraction("fan gauge accuracy", "Fan gauge, gain: half-width", 0.01, certificate),
    pascal("fan gauge zero", "Fan gauge, zero: half-width", 0.1, common),
    {
      label: "gauges of one calibration",
      what: "Both gauges share one calibration",
      value: "no",
      unit: "",
      basis: "two certificates",
      format: "@",
      words: ["yes", "no"],
    },
    fraction("flow calibration uncertainty", "Flow device, common to its openings: standard", 0.012, certificate),
    fraction(
      "opening calibration uncertainty",
      "Flow device, own to each opening: standard",
      0.008,
      "where the sheet Firm has none",
    ),
    fraction("fan exponent uncertainty", "Exponent m of each opening: standard", 0.003, common),
    {
      label: "indoor temperature uncertainty",
      what: "Temperature indoors, over the whole house: standard",
      value: kelvin(0.5),
      unit: difference,
      basis: common,
      format: "0.0##",
      highest: 20,
    },
    {
      label: "outdoor temperature uncertainty",
      what: "Temperature outdoors: standard",
      value: kelvin(1),
      unit: difference,
      basis: common,
      format: "0.0##",
      highest: 20,
    },
    {
      label: "barometer uncertainty",
      what: "Barometric pressure: standard",
      value: Number((100 / unit.barometer).toFixed(digits.barometer + 1)),
      unit: barometer,
      basis: certificate,
      format: "0.0##",
      highest: Number((5000 / unit.barometer).toFixed(digits.barometer)),
    },
    fraction("humidity accuracy", "Relative humidity: half-width", 0.1, common),
    fraction("volume uncertainty", "Internal volume: standard", 0.015, "not less than the tape’s, below"),
    fraction("envelope area uncertainty", "Envelope area: standard", 0.015, common),
    fraction("floor area uncertainty", "Floor area: standard", 0.01, common),
    {
      label: "size degrees of freedom",
      what: "Degrees of freedom of volume and areas",
      value: 50,
      unit: "",
      basis: "known to a tenth (JCGM 100, G.4.2)",
      format: "0",
      highest: 1000,
    },
    pascal("baseline uncertainty", "Baseline before and after, each: standard", null, "blank: from its readings"),
    {
      label: "baseline degrees of freedom",
      what: "Degrees of freedom of a baseline uncertainty that is typed",
      value: null,
      unit: "",
      basis: "blank: infinite; a logger’s stations tell",
      format: "0.#",
      highest: 1000,
    },
    {
      label: "wind coefficient",
      what: "Difference of the wind pressure coefficients of two sides",
      value: 1,
      unit: "",
      basis: common,
      format: "0.0#",
      highest: 3,
    },
    fraction(
      "offset share",
      "Share of wind and stack pressure left in the readings",
      0.1,
      "two leaks in unequal shares",
    ),
    fraction(
      "extrapolation allowance",
      "Change of n per unit of ln Δp beyond the readings: half-width",
      0.095,
      "a crack and a hole against a power law",
    ),
    pascal("pressure uncertainty", "One pressure reading, at random: standard", 0.3, common),
    fraction("flow uncertainty", "One flow reading, at random: standard", 0.004, common),
    {
      label: "monte carlo trials",
      what: "Trials of a Monte Carlo check of the budget",
      value: null,
      unit: "",
      basis: "blank: none; 20 000 for a check",
      format: "#,##0",
      highest: 1000000,
    },
  ];
}

/** The first row of the assumptions on the sheet Uncertainty. */
export const assumptionsFirst = 7;

/** The cell in which an assumption is typed. */
export function assumptionAt(units: Units, label: string): string {
  const index = assumptionsIn(units).findIndex((one) => one.label === label);
  if (index < 0) throw new Error(`no assumption is called ${label}`);
  return onSheet(sheets.uncertainty, `D${assumptionsFirst + index}`);
}
