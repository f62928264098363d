// The entry point of the method: SI numbers in, named results out.
export { usualPressure } from "./constants";
export { methodVersion } from "./version";
export { type Details, MethodError, type Place, type Rules, type Term, whereSound } from "./errors";
export { directions, signOf, type Direction, type InsideOutside } from "./direction";

export { floorArea, type Corner } from "./envelope/floor-area";
export { envelopeVolume, volumeConventions, type Space } from "./envelope/volume";
export { envelopeSize, roofShapes } from "./envelope/outline";

export {
  airDensity,
  assumedHumidity,
  densityByAltitude,
  densityFormulas,
  densityOfBoth,
  referenceDensity,
  relativePressureAtAltitude,
  standardPressure,
  type TestAir,
} from "./air/density";
export { barometricPressure } from "./air/barometric-pressure";
export { airViscosity, densityCorrection } from "./air/viscosity";

export { baselinePressure, type BaselineTimes, countExactZeros, zeroOfReadings } from "./readings/baseline";
export { inducedPressures, pressureSigns, toIndoorsMinusOutdoors, type RowReading } from "./readings/induced-pressure";
export { fanFlow, flowBases, type FlowCalibration } from "./readings/fan-flow";
export { calibratedValue, calibrationTable, type CalibrationPoint } from "./readings/calibrated-value";
export { fanStates, timeUnits, type Log } from "./readings/log/log";
export { logStations, type LogTerms, type Station } from "./readings/log/stations";

export { assumedNoise, type LeakageReading } from "./leakage/readings";
export {
  coefficientWithLimits,
  covarianceOfExponentAndLogCoefficient,
  eachLimit,
  exponentWithLimits,
  flowWithLimits,
  givenExponents,
  type LeakageFit,
  leakageFlow,
  type Limits,
  limitsOf,
  standardErrorOfLogFlow,
  type Technique,
  techniques,
} from "./leakage/curve";
export { fitLeakage } from "./leakage/fit";
export { moments, residualsOf } from "./leakage/least-squares";
export { influences, residualOf } from "./leakage/residuals";
export {
  priorSensitivity,
  readingSensitivities,
  type PriorSensitivity,
  type ReadingSensitivity,
} from "./leakage/sensitivities";
export { referenceCoefficient, referenceConditions } from "./leakage/reference-conditions";

export { profiles, standards, techniqueOf, type Standard } from "./standards/profiles";
export { checkNames, firstCheckNames, type CheckName } from "./standards/check-names";

export { leakageArea, leakageAreaDefinitions, leakageAreaTerms, type LeakageAreaTerms } from "./results/leakage-area";
export { airChangeRate, specificLeakage, specificLeakages, type TestedBuilding } from "./results/specific-leakage";
export { averagedResult, oneDirectionRules, resultDirections } from "./results/averaged";
export { onePointFlow, twoPointFlow, type TwoPointFlow, twoStations } from "./results/quick-test";
export { holeDiameter, targetGap, type TargetGap } from "./repair/target-gap";
export { leakageDifference } from "./repair/leakage-difference";
export { finalForecast, type FinalForecast, type FlowRange } from "./repair/final-forecast";
export { inducedPoints, testResult, type FlowResult, type TestResult, type TestTerms } from "./results/test-result";

export {
  conformanceProbability,
  type DecisionRule,
  decisionRules,
  verdict,
  wholeDegreesOfFreedom,
} from "./judgement/verdict";
export { enScore } from "./judgement/en-score";
export { conformanceWithPrior, decisionRisk, type DecisionRisk, globalRisks } from "./judgement/decision-risk";
export { type Check, type Outcome, type TestFacts, validityChecks, windPlaces } from "./judgement/validity";
export {
  allowedFlow,
  inTargetQuantity,
  targetPressure,
  targetQuantities,
  type TargetQuantity,
  type TargetTerms,
} from "./judgement/target";
export { assumedExponent, assumedExponentDeviation } from "./leakage/expected-exponent";

export { stackPressure, windPressure } from "./planning/natural-pressure";
export { pressureStations } from "./planning/pressure-stations";
export { areaFlow, type Component, componentExponent, componentLeakage } from "./planning/component-leakage";
export { allowedLeakage, type AllowedLeakage } from "./planning/allowed-leakage";
export { fanDemand, fittingOpening, type FanDemand, type Opening } from "./planning/fan-demand";

export {
  exposedSides,
  foundations,
  infiltrationFlow,
  infiltrationModels,
  type InfiltrationTerms,
  shieldings,
} from "./house/infiltration";
export { heatLoss } from "./house/heat-loss";

export {
  chiSquareProbability,
  gammaRatio,
  logGamma,
  normalProbability,
  normalQuantile,
  studentProbability,
  studentQuantile,
  studentT,
  usualConfidence,
} from "./statistics/distributions";
export { largest, mean, smallest } from "./numbers";
export { convertUnits, unitNamed, unitNames } from "./units/units";

export {
  type Effect,
  isAbsolute,
  type ModelErrors,
  type ModelReading,
  type ModelTest,
  noErrors,
  normal,
  ofOpening,
  type Output,
  placeOf,
  prepare,
  type PreparedTest,
  rectangular,
  type Source,
} from "./uncertainty/model";
export {
  baselineMovement,
  baselineSources,
  openingsInBudget,
  ownSources,
  priorSource,
  type SharedSource,
  sharedSources,
  stackHalfWidth,
  windHalfWidth,
} from "./uncertainty/sources";
export { analyzeBaselines, type BaselineScatter, type BaselineSet } from "./uncertainty/baseline-sets";
export { readingResponse, sensitivity, usualBend } from "./uncertainty/response";
export { diagnose, type Diagnosis } from "./uncertainty/diagnosis";
export {
  type BudgetPart,
  type BudgetRow,
  budgetRows,
  type BudgetSources,
  type Combination,
  combine,
  contribution,
  rowsOfMean,
  type WeightedBudget,
} from "./uncertainty/budget";
export type { ReadingNoise } from "./uncertainty/random-scale";
export {
  agreement,
  randomStream,
  type ReadingErrors,
  simulate,
  type SimulatedDirection,
  trial,
  type TrialResult,
} from "./uncertainty/monte-carlo";
