import {
  decisionRules,
  directions,
  infiltrationModels,
  oneDirectionRules,
  pressureSigns,
  resultDirections,
  techniques,
  unitNamed,
  unitNames,
  volumeConventions,
} from "../core/index";
import { leakageAreaChoices } from "./results/leakage-area";
import { unitSystems } from "./cells/units";

/** A word that Excel suggests, with the explanation shown beside it. */
export interface Choice {
  readonly word: string;
  readonly meaning: string;
}

/** The words in the order of the method's list; a word without a meaning is a type error. */
function explained<Word extends string>(
  words: readonly Word[],
  meanings: Readonly<Record<Word, string>>,
): readonly Choice[] {
  return words.map((word) => ({ word, meaning: meanings[word] }));
}

const techniqueMeanings = {
  ordinary: "ordinary least squares on the logarithms: ISO 9972, ASTM E779",
  weighted: "least squares weighted by the uncertainties, or by q² if none are given",
  "organic correlation": "treats neither ln Δp nor ln q as exact",
  "weighted organic correlation": "the same, weighted by the uncertainties",
  "errors in both": "uses the uncertainties of pressure and flow and their correlation: York et al. 2004",
  "weighted with expected exponent":
    "weighted, with the n of other houses as a prior: for planning, mid-construction and repair",
};

/**
 * The suggestions that Excel shows while a choice is typed, by the id of the list. The functions check against the same lists, so they accept every
 * suggestion and nothing else. Not part of functions.js: the meanings are in functions.json only.
 */
export const choiceLists: Readonly<Record<string, readonly Choice[]>> = {
  direction: explained(directions, {
    depressurization: "the fan blows air out of the house; readings are below 0, indoors minus outdoors",
    pressurization: "the fan blows air into the house; readings are above 0, indoors minus outdoors",
  }),
  technique: explained(techniques, techniqueMeanings),
  technique_without_uncertainties: explained(
    ["ordinary", "weighted", "organic correlation", "weighted with expected exponent"],
    {
      ...techniqueMeanings,
      weighted: "least squares weighted by q²",
      "weighted with expected exponent": "weighted by 1 Pa and 1 %, with the n of other houses as a prior",
    },
  ),
  pressure_sign: explained(pressureSigns, {
    "indoors minus outdoors": "ISO 9972: readings are below 0 when depressurizing",
    "outdoors minus indoors": "the other way round: readings are above 0 when depressurizing",
    magnitude: "readings without a sign; the direction must be given",
  }),
  convention: explained(volumeConventions, {
    "whole internal": "partitions are not deducted",
    "room by room": "the clear volumes of the rooms only",
  }),
  definition: explained(leakageAreaChoices, {
    "effective 4 Pa": "ELA: C_d 1, ASTM E779",
    "ISO 9972 10 Pa": "C_d 1, ISO 9972",
    "equivalent 10 Pa": "EqLA: C_d 0.611, CAN/CGSB-149.10",
    custom: "a pressure and a C_d of your choice; give both",
  }),
  one_direction: explained(oneDirectionRules, {
    refuse: "no mean as long as one direction is missing",
    accept: "one direction alone is the result",
  }),
  directions: explained(resultDirections, {
    both: "the mean of both directions: each needs its checks",
    depressurization: "depressurization alone",
    pressurization: "pressurization alone",
  }),
  rule: explained(decisionRules, {
    plain: "pass if result ≤ limit",
    "guarded acceptance":
      "pass if the upper limit of the result ≤ target, fail if its lower limit > target, else not proven",
    "guarded rejection": "fail only if the lower limit of the result > target",
  }),
  units: explained(unitSystems, {
    SI: "m³/h, m³, m², °C, Pa, cm²",
    "SI L/s": "like SI, with flows in L/s and L/(s·m²)",
    IP: "cfm, ft³, ft², °F, inHg, in²",
  }),
  model: explained(infiltrationModels, {
    "n50/20": "the flow at 50 Pa divided by 20: Sherman 1987",
    basic: "stack and wind from the leakage area: ASHRAE Fundamentals 2021 ch. 16",
    enhanced: "stack and wind from C and n: ASHRAE Fundamentals 2021 ch. 16",
    "EN ISO 13789": "exposure, shielding, supply and extract: EN ISO 13789:2017",
    "ASHRAE 62.2": "normalized leakage times a weather and shielding factor",
    "normalized leakage": "NL of ASHRAE 62.2, without a unit",
  }),
  headings: explained(["yes", "no"], { yes: "a heading row above the results", no: "the results only" }),
  unit: unitNames().map((word) => ({ word, meaning: `unit of ${unitNamed(word)?.quantity}` })),
};

/** Parameters whose list has another name; some functions have fewer techniques. */
const otherLists: Readonly<Record<string, string>> = {
  "CONVERTUNITS from": "unit",
  "CONVERTUNITS to": "unit",
  "FITRESIDUALS technique": "technique_without_uncertainties",
  "FLOWEXPONENT technique": "technique_without_uncertainties",
  "LEAKAGECOEFFICIENT technique": "technique_without_uncertainties",
};

/** The id of a parameter's list of suggestions; undefined if it is not a choice. */
export function choiceListOf(functionId: string, parameter: string): string | undefined {
  const id = otherLists[`${functionId} ${parameter}`] ?? parameter;
  return Object.hasOwn(choiceLists, id) ? id : undefined;
}
