import type { Check } from "../review";
import type { Finding } from "../finding";

/** Workbook settings under which the values shown may differ from what the formulas give. */
export const checkCalculationSettings: Check = ({ opened, state }) => {
  const findings: Finding[] = [];
  if (state.calculationMode === "manual") {
    findings.push({
      kind: "calculation settings",
      severity: "warning",
      place: "the workbook",
      what: "Calculation is set to manual: results stay as they are until someone recalculates.",
      why: "New readings next to old results look like a finished test.",
      todo: "Set calculation to automatic (Formulas › Calculation Options) and recalculate.",
    });
  }
  for (const caution of opened.cautions) {
    findings.push({
      kind: "calculation settings",
      severity: "warning",
      place: "the workbook",
      what: `${caution.charAt(0).toUpperCase()}${caution.slice(1)}.`,
      why: "The values shown may then differ from what the formulas give.",
      todo: "Reset it (File › Options › Advanced, or Formulas), or let Excel repair and save the file, unless the report gives a reason.",
    });
  }
  return findings;
};
