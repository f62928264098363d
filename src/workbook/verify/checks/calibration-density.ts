import { formatFigure } from "../../formatting";
import type { Finding } from "../finding";
import type { Check } from "../review";

const ofDensity = /densit|dichte|masse volumique|gęstość/i;
const ofCertificate = /certificat|calibrat|kalibr|étalonn|zertifikat/i;
/** Densities at which flow devices are calibrated or stated, with a margin: 1.1985, 1.2041, 1.225 kg/m³, or the same in lb/ft³. */
const usual = [
  [1.15, 1.3],
  [0.0718, 0.0812],
] as const;
/** What may be such a density at all. */
const possible = [
  [0.6, 2],
  [0.0375, 0.125],
] as const;

/** The density to which a certificate refers, where it is none that certificates refer to. */
export const checkCalibrationDensity: Check = ({ view, chain }) =>
  [...chain.values()].flatMap((place): Finding[] => {
    const value = view.isTyped(place) ? view.readNumber(place) : undefined;
    if (value === undefined) return [];
    const isIn = (ranges: typeof usual | typeof possible) =>
      ranges.some(([low, high]) => value >= low && value <= high);
    if (isIn(usual) || !isIn(possible)) return [];
    const words = view.labels.readWordsBefore(place);
    if (!ofDensity.test(words) || !ofCertificate.test(words)) return [];
    return [
      {
        kind: "calibration density",
        severity: "warning",
        place: view.formatAddress(place),
        what: `The certificate's air density is given as ${formatFigure(value, 5)}; certificates state flows for about 1.2 kg/m³ (0.075 lb/ft³).`,
        why: "Every flow is corrected by the root of this density; too low a figure makes the house look tighter, too high a one leakier.",
        todo: "Compare with the certificate.",
      },
    ];
  });
