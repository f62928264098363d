import type { Spot, Tampered } from "../tampered";
import type { Tampering } from "./tampering";

/** The house of the sample with an opening whose coefficient makes it fail, with every certificate and rule as it was. */
function failing(workbook: Tampered): void {
  workbook.put(["Firm", "D25"], 15.6);
}

const typed = (what: string, kind: Tampering["kind"], spot: Spot, value: number | string): Tampering => ({
  what,
  kind,
  plant(workbook) {
    workbook.put(spot, value);
    return spot;
  },
});

const underFail = (what: string, kind: Tampering["kind"], spot: Spot, value: number | string): Tampering => ({
  what,
  kind,
  plant(workbook) {
    failing(workbook);
    workbook.put(spot, value);
    return spot;
  },
});

/** Words, rules and conditions that make a house look better than its readings. */
export const conditions: readonly Tampering[] = [
  underFail("a result typed over the cover's", "result typed in", ["Cover", "D15"], 0.584),
  underFail(
    "a typed sentence of a pass under a fail",
    "verdict misreported",
    ["Preparation", "B43"],
    "The house meets the passive house limit: n50 = 0.48 1/h, pass.",
  ),
  {
    what: "decimals typed for a programme that publishes none",
    kind: "verdict depends on rounding",
    plant(workbook) {
      failing(workbook);
      workbook.put(["Criteria", "G18"], 1);
      return workbook.find(/STILLAIR_PASSFAIL\(/, "Results");
    },
  },
  {
    what: "decimals typed over their look-up",
    kind: "verdict depends on rounding",
    plant(workbook) {
      failing(workbook);
      workbook.put(["Criteria", "C10"], 1);
      return workbook.find(/STILLAIR_PASSFAIL\(/, "Results");
    },
  },
  typed("a confidence level of a half", "confidence level", ["Criteria", "J8"], 0.5),
  typed("a flow uncertainty far below the stated accuracy", "uncertainty too small", ["Uncertainty", "D13"], 0.001),
  typed("a calibration density of thin air", "calibration density", ["Firm", "D32"], 1.1),
  typed("a barometer that no place on earth reads", "barometer unit", ["Pressurization", "F11"], 109_900),
  typed("a certificate that holds for twenty years", "certificate date", ["Firm", "H15"], 53_100),
  typed("a version of the method typed in", "method version", ["Cover", "H2"], "3.1.0"),
  typed(
    "a coefficient that depends on the house's name",
    "hard-coded figure",
    ["Firm", "D25"],
    '=IF(Cover!C6="Larch House",15.2,15.6)',
  ),
  {
    what: "frost in one direction and a mild day in the other",
    kind: "weather differs",
    plant(workbook) {
      for (const column of ["F", "G"]) workbook.put(["Depressurization", `${column}8`], -18);
      return /^('?Depressurization|Pressurization)/;
    },
  },
  {
    what: "a second run far below the first",
    kind: "runs differ",
    plant(workbook) {
      for (let row = 24; row <= 33; row++) {
        const spot: Spot = ["Depressurization 2", `F${row}`];
        const value = workbook.value(spot);
        if (typeof value === "number") workbook.put(spot, Number((value * 0.7).toFixed(1)));
      }
      return /Depressurization/;
    },
  },
  {
    what: "one direction accepted in one row of a programme that asks for both",
    kind: "one direction accepted",
    plant(workbook) {
      for (const sheet of ["Depressurization", "Depressurization 2"])
        for (let row = 24; row <= 35; row++)
          for (const column of ["D", "E", "F"])
            if (workbook.value([sheet, `${column}${row}`]) !== null) workbook.put([sheet, `${column}${row}`], null);
      workbook.put(["Criteria", "I18"], "either");
      workbook.put(["Criteria", "J9"], "accept");
      return ["Criteria", "I18"];
    },
  },
];
