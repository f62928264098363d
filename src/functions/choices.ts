import {
  decisionRules,
  directions,
  infiltrationModels,
  oneDirectionRules,
  pressureSigns,
  techniques,
  volumeConventions,
} from "../core/index";
import { leakageAreaChoices } from "./results/leakage-area";
import { unitSystems } from "./cells/units";

/**
 * What Excel suggests while a parameter of this name is typed. The functions check against the same lists, so that a suggestion is never refused
 * and nothing accepted goes unsuggested.
 */
export const choicesOfParameter: Readonly<Record<string, readonly string[]>> = {
  direction: directions,
  technique: techniques,
  pressure_sign: pressureSigns,
  convention: volumeConventions,
  definition: leakageAreaChoices,
  one_direction: oneDirectionRules,
  rule: decisionRules,
  units: unitSystems,
  model: infiltrationModels,
  headings: ["yes", "no"],
};
