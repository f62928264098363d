import type { Check } from "../review";
import type { Finding } from "../finding";

/** Settings of the workbook under which what it shows may not be what its formulas give. */
export const checkCalculationSettings: Check = ({ opened, state }) => {
  const findings: Finding[] = [];
  if (state.calculationMode === "manual") {
    findings.push({
      kind: "calculation settings",
      severity: "doubtful",
      place: "the workbook",
      what: "Calculation is set to manual: results stay as they are until someone asks for them anew.",
      why: "New readings beside old results look like a finished test.",
      todo: "Set calculation to automatic (Formulas › Calculation Options) and let it calculate.",
    });
  }
  for (const caution of opened.cautions) {
    findings.push({
      kind: "calculation settings",
      severity: "doubtful",
      place: "the workbook",
      what: `${caution.charAt(0).toUpperCase()}${caution.slice(1)}.`,
      why: "The workbook's own values may then differ from those of its formulas.",
      todo: "Set it back (File › Options › Advanced, or Formulas), or let Excel repair and save the file, unless there is a reason that the report states.",
    });
  }
  return findings;
};
