import type { Check } from "../review";
import { alteredResults } from "./altered-results";
import { baselineSigns } from "./baseline-signs";
import { blankCells } from "./blank-cells";
import { boundCells } from "./bound-cells";
import { brokenReferences } from "./broken-references";
import { calculationSettings } from "./calculation-settings";
import { certificateDates } from "./certificate-dates";
import { circles } from "./circles";
import { clockResults } from "./clock-results";
import { conditionUnits } from "./condition-units";
import { copiedBaselines } from "./copied-baselines";
import { copiedReadings } from "./copied-readings";
import { directionColumns } from "./direction-columns";
import { directionSettings } from "./direction-settings";
import { errorValues } from "./error-values";
import { excludedReadings } from "./excluded-readings";
import { externalLinks } from "./external-links";
import { flowBasis } from "./flow-basis";
import { flowUnits } from "./flow-units";
import { formulaPatterns } from "./formula-patterns";
import { hiddenReadings } from "./hidden-readings";
import { hiddenSheets } from "./hidden-sheets";
import { hiddenValues } from "./hidden-values";
import { issueCopies } from "./issue-copies";
import { limits } from "./limits";
import { longConstants } from "./long-constants";
import { maskedErrors } from "./masked-errors";
import { methodVersions } from "./method-versions";
import { missingFormulas } from "./missing-formulas";
import { names } from "./names";
import { numberText } from "./number-text";
import { oddFigures } from "./odd-figures";
import { oldResults } from "./old-results";
import { oneDirection } from "./one-direction";
import { ownVerdicts } from "./own-verdicts";
import { perfectReadings } from "./perfect-readings";
import { protections } from "./protections";
import { rangeReach } from "./range-reach";
import { rangeSteps } from "./range-steps";
import { readingSigns } from "./reading-signs";
import { resultSources } from "./result-sources";
import { roundedVerdict } from "./rounded-verdict";
import { sizeUnits } from "./size-units";
import { twinFormulas } from "./twin-formulas";
import { typedOver } from "./typed-over";
import { typedResults } from "./typed-results";
import { typedSizes } from "./typed-sizes";
import { unknownCells } from "./unknown-cells";
import { verdictCalls } from "./verdict-calls";
import { verdictRules } from "./verdict-rules";
import { verdictValidity } from "./verdict-validity";
import { verdictWords } from "./verdict-words";
import { volumeConventions } from "./volume-conventions";

/** Every check, in the order in which a reviewer reads: results, formulas, readings, units, verdict, what cannot be seen, settings. */
export const checks: readonly Check[] = [
  oldResults,
  blankCells,
  boundCells,
  brokenReferences,
  circles,
  errorValues,
  maskedErrors,
  typedOver,
  longConstants,
  missingFormulas,
  formulaPatterns,
  twinFormulas,
  directionColumns,
  rangeReach,
  rangeSteps,
  numberText,
  readingSigns,
  baselineSigns,
  copiedReadings,
  copiedBaselines,
  perfectReadings,
  excludedReadings,
  hiddenReadings,
  flowUnits,
  flowBasis,
  conditionUnits,
  sizeUnits,
  typedSizes,
  directionSettings,
  verdictValidity,
  verdictWords,
  verdictCalls,
  verdictRules,
  ownVerdicts,
  roundedVerdict,
  alteredResults,
  typedResults,
  resultSources,
  oddFigures,
  clockResults,
  oneDirection,
  limits,
  volumeConventions,
  certificateDates,
  hiddenValues,
  hiddenSheets,
  names,
  externalLinks,
  protections,
  calculationSettings,
  methodVersions,
  issueCopies,
  unknownCells,
];
