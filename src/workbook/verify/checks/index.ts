import type { Check } from "../review";
import { findAlteredResults } from "./altered-results";
import { checkBaselineSigns } from "./baseline-signs";
import { findBlankCells } from "./blank-cells";
import { findBoundCells } from "./bound-cells";
import { findBrokenReferences } from "./broken-references";
import { checkCalculationSettings } from "./calculation-settings";
import { checkCertificateDates } from "./certificate-dates";
import { findCircles } from "./circles";
import { findClockResults } from "./clock-results";
import { checkConditionUnits } from "./condition-units";
import { findCopiedBaselines } from "./copied-baselines";
import { findCopiedReadings } from "./copied-readings";
import { findCountedTwice } from "./counted-twice";
import { checkDirectionColumns } from "./direction-columns";
import { checkDirectionSettings } from "./direction-settings";
import { findErrorValues } from "./error-values";
import { findExampleReadings } from "./example-readings";
import { findExcludedReadings } from "./excluded-readings";
import { findExternalLinks } from "./external-links";
import { checkFlowBasis } from "./flow-basis";
import { checkFlowUnits } from "./flow-units";
import { checkFormulaPatterns } from "./formula-patterns";
import { findHiddenReadings } from "./hidden-readings";
import { checkHiddenSheets } from "./hidden-sheets";
import { findHiddenValues } from "./hidden-values";
import { checkIssueCopies } from "./issue-copies";
import { checkLimitUnits } from "./limit-units";
import { checkLimits } from "./limits";
import { findLongConstants } from "./long-constants";
import { findMaskedErrors } from "./masked-errors";
import { checkMethodVersions } from "./method-versions";
import { findMissingFormulas } from "./missing-formulas";
import { findNearCopies } from "./near-copies";
import { checkNames } from "./names";
import { findNumbersAsText } from "./number-text";
import { findOddFigures } from "./odd-figures";
import { findOldResults } from "./old-results";
import { checkDirectionChoice } from "./one-direction";
import { checkOwnDecisions } from "./own-decisions";
import { findOwnVerdicts } from "./own-verdicts";
import { findPerfectReadings } from "./perfect-readings";
import { checkPlausibleInputs } from "./plausible-inputs";
import { checkProtections } from "./protections";
import { checkRangeReach } from "./range-reach";
import { checkRangeSteps } from "./range-steps";
import { checkReadingSigns } from "./reading-signs";
import { checkRoomHeights } from "./room-heights";
import { checkResultSources } from "./result-sources";
import { findRoundedVerdict } from "./rounded-verdict";
import { checkSizeUnits } from "./size-units";
import { checkTwinFormulas } from "./twin-formulas";
import { findTypedInSeries } from "./typed-in-series";
import { findTypedOver } from "./typed-over";
import { findTypedResults } from "./typed-results";
import { findTypedSizes } from "./typed-sizes";
import { findUnknownCells } from "./unknown-cells";
import { checkVerdictCalls } from "./verdict-calls";
import { checkVerdictRules } from "./verdict-rules";
import { checkVerdictValidity } from "./verdict-validity";
import { checkVerdictWords } from "./verdict-words";
import { checkVolumeConventions } from "./volume-conventions";

/** Every check, in a reviewer's reading order: results, formulas, readings, units, verdict, hidden content, settings. */
export const checks: readonly Check[] = [
  findOldResults,
  findBlankCells,
  findBoundCells,
  findBrokenReferences,
  findCircles,
  findErrorValues,
  findMaskedErrors,
  findTypedOver,
  findTypedInSeries,
  findCountedTwice,
  findLongConstants,
  findMissingFormulas,
  checkFormulaPatterns,
  checkTwinFormulas,
  checkDirectionColumns,
  checkRangeReach,
  checkRangeSteps,
  findNumbersAsText,
  checkReadingSigns,
  checkBaselineSigns,
  findCopiedReadings,
  findNearCopies,
  findCopiedBaselines,
  findPerfectReadings,
  findExampleReadings,
  findExcludedReadings,
  findHiddenReadings,
  checkFlowUnits,
  checkFlowBasis,
  checkConditionUnits,
  checkSizeUnits,
  checkPlausibleInputs,
  checkRoomHeights,
  checkLimitUnits,
  findTypedSizes,
  checkDirectionSettings,
  checkVerdictValidity,
  checkVerdictWords,
  checkVerdictCalls,
  checkVerdictRules,
  checkOwnDecisions,
  findOwnVerdicts,
  findRoundedVerdict,
  findAlteredResults,
  findTypedResults,
  checkResultSources,
  findOddFigures,
  findClockResults,
  checkDirectionChoice,
  checkLimits,
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
  findUnknownCells,
];
