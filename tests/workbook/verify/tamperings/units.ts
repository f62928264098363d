import type { Spot, Tampered } from "../tampered";
import type { Tampering } from "./tampering";

/** With a lower limit the building of the sample fails. */
function lowerLimit(workbook: Tampered): void {
  workbook.put(["Criteria", "E31"], 2.3);
  workbook.put(["Criteria", "J31"], "2.3 ACH50");
}

const typedOver = (what: string, spot: Spot, value: number): Tampering => ({
  what,
  kind: "formula overwritten",
  plant(workbook) {
    workbook.put(spot, value);
    return spot;
  },
});

/** What is done between the runs of the units and the verdict of the building. */
export const units: readonly Tampering[] = [
  typedOver("a unit's flow typed over an array formula of one cell", ["Results", "G12"], 240),
  typedOver("a unit's volume typed over a look-up that counts its rows", ["Results", "D12"], 160),
  typedOver("a unit's deciding rate typed over its formula", ["Results", "T12"], 2.31),
  {
    what: "a sum of volumes scaled",
    kind: "hard-coded figure",
    plant(workbook) {
      lowerLimit(workbook);
      workbook.put(["Results", "I29"], "=SUM(UnitVolumes)*0.42");
      return ["Results", "I29"];
    },
  },
  {
    what: "two of four units added up",
    kind: "range misses readings",
    plant(workbook) {
      lowerLimit(workbook);
      workbook.put(["Results", "I28"], "=G8+G16");
      workbook.put(["Results", "I29"], "=D8+D16");
      return ["Results", "I28"];
    },
  },
  {
    what: "PASS typed on the overview of a building that fails, some of whose units pass",
    kind: "verdict misreported",
    plant(workbook) {
      lowerLimit(workbook);
      workbook.put(["Overview", "B13"], "PASS");
      return ["Overview", "B13"];
    },
  },
  {
    what: "a unit chosen for the sample whose run is gone",
    kind: "chosen and not tested",
    plant(workbook) {
      workbook.put(["Runs", "B25"], null);
      return ["Units", "H12"];
    },
  },
];
