import type { Tampered } from "../tampered";
import type { Tampering } from "./tampering";

const redefine = (workbook: Tampered, name: string, target: string): RegExp => {
  workbook.edit("xl/workbook.xml", (xml) =>
    xml.replace(new RegExp(`(<definedName name="${name}"[^>]*>)[^<]*`), (_, open: string) => open + target),
  );
  return new RegExp(`^the name ${name}$`);
};

/** Names that no longer refer to the cell that they describe. */
export const names: readonly Tampering[] = [
  {
    what: "the limit's name moved to another criterion's row",
    kind: "name points elsewhere",
    plant: (workbook) => redefine(workbook, "TargetLimit", "Criteria!$E$19"),
  },
  {
    what: "an input's name moved to a cell without a label, far from the form",
    kind: "name points elsewhere",
    plant(workbook) {
      workbook.put(["Firm", "K32"], 1.1);
      return redefine(workbook, "CalibrationDensity", "Firm!$K$32");
    },
  },
];
