// The door of the method: SI numbers in, named results out.
export { methodVersion } from "./version";
export { MethodError } from "./errors";
export { directions, type Direction, type InsideOutside } from "./direction";

export { floorArea, type Corner } from "./envelope/floor-area";
export { envelopeVolume, volumeConventions, type Space } from "./envelope/volume";
export { envelopeSize, roofShapes } from "./envelope/outline";

export { airDensity, assumedHumidity, referenceDensity, standardPressure } from "./air/density";
export { densityOfBoth, type TestAir } from "./air/test-air";
export { barometricPressure } from "./air/barometric-pressure";
export { airViscosity } from "./air/viscosity";
export { densityCorrection } from "./air/density-correction";

export { baselinePressure } from "./readings/baseline";
export { inducedPressures, pressureSigns, type RowReading } from "./readings/induced-pressure";
export { fanFlow } from "./readings/fan-flow";
export { flowBases } from "./readings/flow-basis";

export type { LeakageReading } from "./leakage/readings";
export {
  coefficientWithLimits,
  exponentWithLimits,
  flowWithLimits,
  techniques,
  type LeakageFit,
  type Limits,
  type Technique,
} from "./leakage/curve";
export { fitLeakage } from "./leakage/fit";
export { influences, residualOf } from "./leakage/residuals";
export { readingSensitivities, type ReadingSensitivity } from "./leakage/sensitivities";
export { leakageFlow } from "./leakage/leakage-flow";
export { referenceCoefficient, referenceConditions } from "./leakage/reference-conditions";

export { profiles, standards, techniqueOf, type Standard } from "./standards/profiles";
export { checkNames, type CheckName } from "./standards/profile";

export { airChangeRate, specificLeakage } from "./results/rates";
export { leakageArea, leakageAreaDefinitions, leakageAreaTerms, type LeakageAreaTerms } from "./results/leakage-area";
export { averagedResult, oneDirectionRules } from "./results/averaged";
export {
  testResult,
  type FlowResult,
  type TestedBuilding,
  type TestResult,
  type TestTerms,
} from "./results/test-result";

export { decisionRules, verdict } from "./judgement/verdict";
export {
  allowedFlow,
  inTargetQuantity,
  sizeFor,
  targetPressure,
  targetQuantities,
  usualPressure,
  type TargetQuantity,
  type TargetTerms,
} from "./judgement/target";
export { assumedExponent, assumedExponentDeviation } from "./leakage/assumed-exponent";

export { studentT } from "./statistics/student-t";
export { convertUnits } from "./units/convert";
