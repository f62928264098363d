import type { Technique } from "../leakage/curve";
import { astmE1827, astmE3158, astmE779 } from "./astm";
import { en13829, iso9972 } from "./iso";
import {
  armyCorps,
  cgsb14910,
  cgsb14910of2019,
  cgsb14910OnePoint,
  resnetIcc380,
  resnetIcc380MultiPoint,
} from "./national";
import type { Profile } from "./profile";

/** What each standard says, as data, by the name that a tester types. */
export const profiles = {
  "ISO 9972": iso9972,
  "EN 13829": en13829,
  "ASTM E779": astmE779,
  "ASTM E1827": astmE1827,
  "ASTM E3158": astmE3158,
  "US Army Corps": armyCorps,
  "CGSB 149.10": cgsb14910,
  "CGSB 149.10-2019": cgsb14910of2019,
  "CGSB 149.10-2019 one-point": cgsb14910OnePoint,
  "RESNET/ICC 380": resnetIcc380,
  "RESNET/ICC 380 multi-point": resnetIcc380MultiPoint,
} as const satisfies Record<string, Profile>;

export type Standard = keyof typeof profiles;

/** Their names, in this order. */
export const standards = Object.keys(profiles) as Standard[];

/**
 * The technique that a standard fits its line by, where the tester chose none.
 * Example: techniqueOf("CGSB 149.10") → "weighted"
 */
export function techniqueOf(standard: Standard): Technique {
  return profiles[standard].technique.value;
}
