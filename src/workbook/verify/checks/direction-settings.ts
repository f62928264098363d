import type { CellValue } from "../../model";
import type { Finding } from "../finding";
import type { Check } from "../review";
import type { Inspector } from "../../book/inspector";
import { type EnteredRun, readSetting } from "../../book/tests/entered-runs";
import { formatCellValue } from "../../formatting";

/** Settings that both directions of a house share. */
const shared = [
  "volume",
  "envelope area",
  "floor area",
  "volume convention",
  "flow basis",
  "calibration density",
  "standard",
  "technique",
  "confidence",
  "reference pressure",
  "units",
];

/** A formula that gives an empty text for a blank cell gives the same setting. */
const normalizeValue = (value: CellValue): CellValue =>
  typeof value === "string" ? value.trim().toLowerCase() || null : value;

/** The conditions of one series of readings, whatever is computed from it. */
const measured = [
  ...shared.filter((label) => !["standard", "technique", "confidence", "reference pressure"].includes(label)),
  "indoor temperature",
  "outdoor temperature",
  "barometric pressure",
];

/** Two directions of one house, or two computations of one series, with different settings. */
export const checkDirectionSettings: Check = ({ view, tests }) => [
  ...tests.pairs.flatMap(([one, other]) =>
    compareSettings(view, one, other, shared, {
      where: [`in ${one.direction}`, `in ${other.direction}`],
      why: "The mean of two results computed differently is meaningless.",
      todo: "Use the same for both directions, or give the reason in the report.",
    }),
  ),
  ...tests.callsByRun.flatMap(([one, ...others]) =>
    others.flatMap((other) =>
      one === undefined || one.settingsArea === undefined
        ? []
        : compareSettings(view, one, other, measured, {
            where: [
              `in ${view.formatAddress(one.call.place)}`,
              `in ${view.formatAddress(other.call.place)}, which computes the same readings`,
            ],
            why: "A series of readings has one house and one day; at most one of the two results can be right.",
            todo: "Pass the same settings to both.",
          }),
    ),
  ),
];

interface Words {
  readonly where: readonly [string, string];
  readonly why: string;
  readonly todo: string;
}

function compareSettings(
  view: Inspector,
  one: EnteredRun,
  other: EnteredRun,
  labels: readonly string[],
  { where, why, todo }: Words,
): Finding[] {
  return labels.flatMap((label): Finding[] => {
    const [a, b] = [readSetting(view, one, label), readSetting(view, other, label)];
    const place = other.settings.get(label)?.place;
    if (a === undefined || b === undefined || normalizeValue(a) === normalizeValue(b) || !place) return [];
    if (typeof a === "number" && typeof b === "number" && Math.abs(a - b) <= 1e-9 * Math.abs(a)) return [];
    return [
      {
        kind: "settings differ",
        severity: "warning",
        place: view.formatAddress(place),
        what: `The ${label} is ${formatCellValue(a)} ${where[0]} and ${formatCellValue(b)} ${where[1]}.`,
        why,
        todo,
      },
    ];
  });
}
