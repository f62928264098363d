import type { Finding } from "../finding";
import { housePairs } from "../house-pairs";
import type { Check } from "../review";
import { settingOf } from "../whole-tests";
import { shown } from "../words";

/** Settings that both directions of one house share. */
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

/** Two directions of one house that are computed by different settings. */
export const directionSettings: Check = ({ view, twins, tests }) =>
  housePairs(view, twins, tests).flatMap(([one, other]) =>
    shared.flatMap((label): Finding[] => {
      const [a, b] = [settingOf(view, one, label), settingOf(view, other, label)];
      const place = other.settings.get(label)?.place;
      if (a === undefined || b === undefined || a === b || !place) return [];
      if (typeof a === "number" && typeof b === "number" && Math.abs(a - b) <= 1e-9 * Math.abs(a)) return [];
      return [
        {
          kind: "settings differ",
          severity: "doubtful",
          place: view.address(place),
          what: `The ${label} is ${shown(a)} in ${one.direction} and ${shown(b)} in ${other.direction}.`,
          why: "The mean of two results that were computed differently is the result of neither.",
          todo: "Give both directions the same, or state the reason in the report.",
        },
      ];
    }),
  );
