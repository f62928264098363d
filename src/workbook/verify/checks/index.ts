import type { Check } from "../review";
import { findAlteredResults } from "./altered-results";
import { checkBaselineSigns } from "./baseline-signs";
import { findBlankCells } from "./blank-cells";
import { findBrokenReferences } from "./broken-references";
import { checkCalibrationDensity } from "./calibration-density";
import { checkCalculationSettings } from "./calculation-settings";
import { checkCertificateDates } from "./certificate-dates";
import { findCircularReferences } from "./circular-references";
import { findClockResults } from "./clock-results";
import { findChosenUnits } from "./chosen-units";
import { findClaimedPasses } from "./claimed-passes";
import { checkConditionUnits } from "./condition-units";
import { checkConfidenceLevels } from "./confidence-levels";
import { findCopiedBaselines } from "./copied-baselines";
import { findCopiedReadings } from "./copied-readings";
import { findCountedTwice } from "./counted-twice";
import { checkDirectionColumns } from "./direction-columns";
import { checkDirectionSettings } from "./direction-settings";
import { checkDirectionsOfProgramme } from "./directions-of-programme";
import { findErrorValues } from "./error-values";
import { findExactReadings } from "./exact-readings";
import { findExampleReadings } from "./example-readings";
import { findExcludedReadings } from "./excluded-readings";
import { findExternalLinks } from "./external-links";
import { checkFlowBasis } from "./flow-basis";
import { checkFlowUnits } from "./flow-units";
import { checkFormulaPatterns } from "./formula-patterns";
import { findFrozenFormulas } from "./frozen-formulas";
import { findHiddenAdjustments } from "./hidden-adjustments";
import { findHiddenReadings } from "./hidden-readings";
import { checkHiddenSheets } from "./hidden-sheets";
import { findHiddenValues } from "./hidden-values";
import { checkIssueCopies } from "./issue-copies";
import { checkLimitUnits } from "./limit-units";
import { checkLimits } from "./limits";
import { findMaskedErrors } from "./masked-errors";
import { checkMethodVersions } from "./method-versions";
import { findMissingFormulas } from "./missing-formulas";
import { checkNames } from "./names";
import { findNearCopies } from "./near-copies";
import { findNumbersAsText } from "./number-text";
import { findOldResults } from "./old-results";
import { checkDirectionChoice } from "./one-direction";
import { checkOwnDecisions } from "./own-decisions";
import { findOwnVerdicts } from "./own-verdicts";
import { findPerfectReadings } from "./perfect-readings";
import { checkPlausibleInputs } from "./plausible-inputs";
import { checkProtections } from "./protections";
import { checkQuotedLimits } from "./quoted-limits";
import { checkRangeReach } from "./range-reach";
import { checkRangeSteps } from "./range-steps";
import { checkReadingSigns } from "./reading-signs";
import { checkResultSources } from "./result-sources";
import { checkRoomHeights } from "./room-heights";
import { checkScaledFlows } from "./scaled-flows";
import { findRoundedVerdict } from "./rounded-verdict";
import { checkSizeUnits } from "./size-units";
import { checkTwinFormulas } from "./twin-formulas";
import { findTypedInSeries } from "./overwritten-in-series";
import { checkStatedAccuracies } from "./stated-accuracies";
import { checkStatedRules } from "./stated-rules";
import { findSumsOfSome } from "./sums-of-some";
import { findTypedAtEnd } from "./overwritten-at-end";
import { findTypedOver } from "./overwritten-among-neighbours";
import { findTypedResults } from "./typed-results";
import { findTypedSizes } from "./typed-sizes";
import { findUnboundCalls } from "./unbound-calls";
import { findUnevaluatedCells } from "./unevaluated-cells";
import { checkVerdictCalls } from "./verdict-calls";
import { checkVerdictRules } from "./verdict-rules";
import { checkVerdictValidity } from "./verdict-validity";
import { checkVerdictWords } from "./verdict-words";
import { checkVolumeConventions } from "./volume-conventions";
import { checkWeatherBetweenRuns } from "./weather-between-runs";

/** Every check, in a reviewer's reading order: results, formulas, readings, units, verdict, hidden content, settings. */
export const checks: readonly Check[] = [
  findOldResults,
  findBlankCells,
  findUnboundCalls,
  findBrokenReferences,
  findCircularReferences,
  findErrorValues,
  findMaskedErrors,
  findTypedOver,
  findTypedInSeries,
  findTypedAtEnd,
  findCountedTwice,
  findFrozenFormulas,
  findMissingFormulas,
  checkFormulaPatterns,
  checkTwinFormulas,
  checkDirectionColumns,
  checkRangeReach,
  findSumsOfSome,
  checkRangeSteps,
  findNumbersAsText,
  checkReadingSigns,
  checkBaselineSigns,
  findCopiedReadings,
  findNearCopies,
  findCopiedBaselines,
  findPerfectReadings,
  findExactReadings,
  findExampleReadings,
  findExcludedReadings,
  findHiddenReadings,
  checkFlowUnits,
  checkFlowBasis,
  checkConditionUnits,
  checkSizeUnits,
  checkPlausibleInputs,
  checkWeatherBetweenRuns,
  checkCalibrationDensity,
  checkConfidenceLevels,
  checkStatedAccuracies,
  checkRoomHeights,
  checkScaledFlows,
  findChosenUnits,
  checkLimitUnits,
  findTypedSizes,
  checkDirectionSettings,
  checkVerdictValidity,
  checkVerdictWords,
  findClaimedPasses,
  checkVerdictCalls,
  checkVerdictRules,
  checkStatedRules,
  checkOwnDecisions,
  findOwnVerdicts,
  findRoundedVerdict,
  findAlteredResults,
  findTypedResults,
  checkResultSources,
  findHiddenAdjustments,
  findClockResults,
  checkDirectionChoice,
  checkDirectionsOfProgramme,
  checkLimits,
  checkQuotedLimits,
  checkVolumeConventions,
  checkCertificateDates,
  findHiddenValues,
  checkHiddenSheets,
  checkNames,
  findExternalLinks,
  checkProtections,
  checkCalculationSettings,
  checkMethodVersions,
  checkIssueCopies,
  findUnevaluatedCells,
];
