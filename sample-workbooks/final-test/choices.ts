import { decisionRules, oneDirectionRules, standards, techniques } from "../../src/core/index";
import { onSheet } from "../blocks/address";
import { section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { input, looks, style } from "../blocks/style";
import { between, oneOf } from "../blocks/validation";
import { sheets } from "./places";

/** A formula: the technique takes the standard uncertainty of every reading from the sheet Uncertainty. */
export const takesUncertainties =
  'OR(TestTechnique="weighted organic correlation",TestTechnique="errors in both",TestTechnique="weighted with expected exponent")';

const first = 6;

interface Choice {
  readonly name: string;
  readonly label: string;
  readonly value: string | number;
  readonly words?: readonly string[];
  readonly hint: string;
}

const choices: readonly Choice[] = [
  {
    name: "TestStandard",
    label: "Standard of the test",
    value: "ISO 9972",
    words: standards,
    hint: "Decides the checks of validity and the reference conditions of the coefficient.",
  },
  {
    name: "TestTechnique",
    label: "Technique of the line",
    value: "ordinary",
    words: techniques,
    hint: "Ordinary least squares is what ISO 9972 asks for. The last three take the uncertainties of the readings from the sheet Uncertainty. “With expected exponent” is for planning and repair; no standard asks for it.",
  },
  {
    name: "ConfidenceLevel",
    label: "Confidence of the limits",
    value: 0.95,
    hint: "A fraction: 0.95 for 95 %.",
  },
  {
    name: "OneDirection",
    label: "One direction alone",
    value: "refuse",
    words: oneDirectionRules,
    hint: "Refuse: the mean needs both directions. Accept: one is enough, where the criterion says so too.",
  },
  {
    name: "DecisionRule",
    label: "Decision rule",
    value: "plain",
    words: decisionRules,
    hint: "Plain: the result against the criterion’s limit. Guarded acceptance: the upper limit of the result. Guarded rejection: fails only where its lower limit exceeds the criterion’s.",
  },
];

/** How the test is evaluated and decided, each from a list, beside the criterion; the names by which other sheets call the choices. */
export function choicesSection(sheet: Sheet): Record<string, string> {
  section(sheet, first - 1, ["H", "L"], "How the test is evaluated");
  choices.forEach(({ label, value, words, hint }, index) => {
    const row = first + index;
    sheet.put(`H${row}`, label, looks.label).paint(`I${row}`, looks.label);
    sheet.put(`J${row}`, value, style({ bold: true }, input(words ? undefined : "0.0##", "left")));
    sheet.merge(`J${row}:K${row}`);
    const cells = `J${row}:K${row}`;
    sheet.validate(words ? oneOf(cells, words, label, hint) : between(cells, 0.5, 0.9999, label, hint));
  });
  return Object.fromEntries(choices.map(({ name }, index) => [name, onSheet(sheets.criteria, `J${first + index}`)]));
}
