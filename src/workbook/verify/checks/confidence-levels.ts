import { readSetting } from "../../book/tests/entered-runs";
import { formatCellValue } from "../../formatting";
import type { Finding } from "../finding";
import type { Check } from "../review";

/** Below it, an interval says little: common practice is 0.95, a few reports state 0.9. */
const lowest = 0.9;

/** Intervals stated at a confidence level so low that they look narrow. */
export const checkConfidenceLevels: Check = ({ view, runs }) => {
  const seen = new Set<string>();
  return runs.flatMap((run): Finding[] => {
    const value = readSetting(view, run, "confidence");
    const setting = run.settings.get("confidence");
    if (!setting || typeof value !== "number" || !(value < lowest)) return [];
    const [source] = view.listPrecedents(setting.place).flatMap((area) => view.listCells(area));
    const place = view.formatAddress(source && view.readNumber(source) === value ? source : setting.place);
    if (seen.has(place)) return [];
    seen.add(place);
    return [
      {
        kind: "confidence level",
        severity: "warning",
        place,
        what: `The limits and the expanded uncertainty are stated at a confidence level of ${formatCellValue(value)}.`,
        why: "At a low level the interval is narrow, and a rule that counts it lets more houses pass.",
        todo: "Use 0.95, or name the programme that asks for another level.",
      },
    ];
  });
};
