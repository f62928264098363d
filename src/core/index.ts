// The door of the method: SI numbers in, named results out.
export { methodVersion } from "./version";
export { MethodError } from "./errors";
export { directions, signOf, type Direction, type InsideOutside } from "./direction";

export { floorArea, type Corner } from "./envelope/floor-area";
export { envelopeVolume, volumeConventions, type Space } from "./envelope/volume";
export { envelopeSize, roofShapes } from "./envelope/outline";

export { airDensity, assumedHumidity, referenceDensity, standardPressure } from "./air/density";
export { densityFormulas, densityOfBoth, type TestAir } from "./air/test-air";
export { densityByAltitude, relativePressureAtAltitude } from "./air/density-by-altitude";
export { barometricPressure } from "./air/barometric-pressure";
export { airViscosity } from "./air/viscosity";
export { densityCorrection } from "./air/density-correction";

export {
  baselineNames,
  baselinePressure,
  type BaselineTimes,
  countExactZeros,
  zeroOfReadings,
} from "./readings/baseline";
export { inducedPressures, pressureSigns, toIndoorsMinusOutdoors, type RowReading } from "./readings/induced-pressure";
export { fanFlow, type FlowCalibration } from "./readings/fan-flow";
export { flowBases } from "./readings/flow-basis";
export { calibratedValue, calibrationTable, type CalibrationPoint } from "./readings/calibrated-value";
export { fanStates, timeUnits, type Log } from "./readings/log/log";
export { logStations, type LogTerms, type Station } from "./readings/log/log-stations";

export type { LeakageReading } from "./leakage/readings";
export {
  coefficientWithLimits,
  covarianceOfExponentAndLogCoefficient,
  exponentWithLimits,
  flowWithLimits,
  standardErrorOfLogFlow,
  techniques,
  type LeakageFit,
  type Limits,
  type Technique,
} from "./leakage/curve";
export { fitLeakage } from "./leakage/fit";
export { influences, residualOf } from "./leakage/residuals";
export {
  priorSensitivity,
  readingSensitivities,
  type PriorSensitivity,
  type ReadingSensitivity,
} from "./leakage/sensitivities";
export { givenExponents } from "./leakage/exponent";
export { leakageFlow } from "./leakage/leakage-flow";
export { referenceCoefficient, referenceConditions } from "./leakage/reference-conditions";

export { profiles, standards, techniqueOf, type Standard } from "./standards/profiles";
export { checkNames, firstCheckNames, type CheckName } from "./standards/check-names";

export { airChangeRate, specificLeakage } from "./results/rates";
export { leakageArea, leakageAreaDefinitions, leakageAreaTerms, type LeakageAreaTerms } from "./results/leakage-area";
export { averagedResult, oneDirectionRules } from "./results/averaged";
export { onePointFlow } from "./results/one-point";
export { twoPointFlow, twoStations, type TwoPointFlow } from "./results/two-point";
export { holeDiameter } from "./repair/hole-diameter";
export { targetGap, type TargetGap } from "./repair/target-gap";
export { leakageDifference } from "./repair/leakage-difference";
export { finalForecast, type FinalForecast, type FlowRange } from "./repair/final-forecast";
export {
  testResult,
  type FlowResult,
  type TestedBuilding,
  type TestResult,
  type TestTerms,
} from "./results/test-result";

export { decisionRules, verdict, type DecisionRule } from "./judgement/verdict";
export { conformanceProbability, wholeDegreesOfFreedom } from "./judgement/conformance";
export { enScore } from "./judgement/en-score";
export { decisionRisk, type DecisionRisk } from "./judgement/decision-risk";
export { conformanceWithPrior, globalRisks } from "./judgement/prior-risks";
export { validityChecks, windPlaces, type Check, type Outcome } from "./judgement/validity";
export type { TestFacts } from "./judgement/validity-facts";
export {
  allowedFlow,
  inTargetQuantity,
  targetPressure,
  targetQuantities,
  usualPressure,
  type TargetQuantity,
  type TargetTerms,
} from "./judgement/target";
export { assumedNoise } from "./leakage/assumed-noise";
export { assumedExponent, assumedExponentDeviation } from "./leakage/assumed-exponent";

export { stackPressure, windPressure } from "./planning/natural-pressure";
export { pressureStations } from "./planning/pressure-stations";
export { areaFlow } from "./planning/area-flow";
export { componentExponent, componentLeakage, type Component } from "./planning/component-leakage";
export { allowedLeakage, type AllowedLeakage } from "./planning/allowed-leakage";
export { fanDemand, fittingOpening, type FanDemand, type Opening } from "./planning/fan-demand";

export { infiltrationFlow, infiltrationModels } from "./house/infiltration";
export { exposedSides, foundations, shieldings, type InfiltrationTerms } from "./house/infiltration-terms";
export { heatLoss } from "./house/heat-loss";

export { chiSquareProbability } from "./statistics/chi-square";
export { normalProbability, normalQuantile } from "./statistics/normal";
export { studentProbability, studentT } from "./statistics/student-t";
export { convertUnits } from "./units/convert";
export { unitNamed, unitNames } from "./units/units";

export { prepare, type ModelReading, type ModelTest, type PreparedTest } from "./uncertainty/model";
export { normal, ofOpening, rectangular, type Effect, type Source } from "./uncertainty/source";
export {
  baselineSources,
  openingsInBudget,
  ownSources,
  priorSource,
  sharedSources,
  type SharedSource,
} from "./uncertainty/sources";
export { analyzeBaselines, type BaselineScatter, type BaselineSet } from "./uncertainty/baseline-sets";
export { usualBend } from "./uncertainty/extrapolation";
export { diagnose, type Diagnosis } from "./uncertainty/diagnosis";
export { isAbsolute, type Output } from "./uncertainty/output";
export { budgetRows, type BudgetSources } from "./uncertainty/budget";
export { combine, contribution, limitsOf, type BudgetRow, type Combination } from "./uncertainty/combination";
export { rowsOfMean, type WeightedBudget } from "./uncertainty/mean-of-directions";
export { baselineMovement, stackHalfWidth, windHalfWidth } from "./uncertainty/pressure-offsets";
export { readingResponse, sensitivity } from "./uncertainty/response";
export type { ReadingNoise } from "./uncertainty/random";
export { noErrors, placeOf, type ModelErrors } from "./uncertainty/model-errors";
export { trial, type ReadingErrors, type TrialResult } from "./uncertainty/trial";
export { simulate, type SimulatedDirection } from "./uncertainty/monte-carlo";
export { randomStream } from "./uncertainty/generator";
export { agreement } from "./uncertainty/agreement";
