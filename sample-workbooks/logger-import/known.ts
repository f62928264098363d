import { formLines } from "../blocks/form";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals } from "../blocks/style";
import { between } from "../blocks/validation";
import { known } from "./scenario";

const first = 7;

const lines = [
  { label: "building height", typed: known.height, format: decimals(1), unit: "m, for the stack" },
  { label: "wind speed", typed: known.wind, format: decimals(1), unit: "m/s" },
  { label: "gauge accuracy", typed: known.gaugeAccuracy, format: "0.000", unit: "half-width, a fraction" },
  { label: "fan gauge accuracy", typed: known.gaugeAccuracy, format: "0.000", unit: "half-width, a fraction" },
  { label: "flow calibration uncertainty", typed: known.flow, format: "0.000", unit: "standard, a fraction" },
  { label: "volume uncertainty", typed: known.volume, format: "0.000", unit: "standard, a fraction" },
] as const;

/** The cell of what is typed under a label. */
export const knownSettings = lines.map(({ label, format }, index) => ({ label, format, cell: `C${first + index}` }));

/** What the budget takes as known; what stands nowhere is assumed by the function, whose row says so. */
export function knownSection(sheet: Sheet): void {
  section(sheet, first - 2, ["B", "D"], "What the budget takes as known");
  columnHeads(sheet, first - 1, "B", ["<setting", "value", "<<unit"]);
  formLines(sheet, first, { label: "B", value: "C", unit: "D" }, lines);
  sheet.validate(
    between(`C${first}`, 1, 100, "Building height, m", "From the ground to the top of the envelope."),
    between(`C${first + 1}`, 0, 30, "Wind, m/s", "Mean over the test; 0 is a value."),
    between(
      `C${first + 2}:C${first + lines.length - 1}`,
      0,
      0.5,
      "From the certificate",
      "A fraction: 0.01 for 1 %. Blank leaves it to the function, and its row says what it takes.",
    ),
  );
}
