import * as every from "./index";

/**
 * The functions of every build; the build fails where they are not those of functions.json. Written out, since webpack makes a getter for each name of a
 * module that is used as a whole, and behind an arrow, since the minifier would otherwise move each function in here, away from what it resembles:
 * together 600 bytes of functions.js.
 */
const ofEveryBuild = () => ({
  floorArea: every.floorArea,
  envelopeVolume: every.envelopeVolume,
  envelopeSize: every.envelopeSize,
  airDensity: every.airDensity,
  barometricPressure: every.barometricPressure,
  airViscosity: every.airViscosity,
  densityCorrection: every.densityCorrection,
  baselinePressure: every.baselinePressure,
  inducedPressure: every.inducedPressure,
  fanFlow: every.fanFlow,
  calibratedValue: every.calibratedValue,
  logStations: every.logStations,
  leakageFit: every.leakageFit,
  leakageCoefficient: every.leakageCoefficient,
  flowExponent: every.flowExponent,
  leakageFlow: every.leakageFlow,
  fitResiduals: every.fitResiduals,
  referenceCoefficient: every.referenceCoefficient,
  airChangeRate: every.airChangeRate,
  specificLeakage: every.specificLeakage,
  leakageArea: every.leakageArea,
  averagedResult: every.averagedResult,
  testResult: every.testResult,
  onePointFlow: every.onePointFlow,
  twoPointFlow: every.twoPointFlow,
  validityChecks: every.validityChecks,
  uncertaintyBudget: every.uncertaintyBudget,
  passFail: every.passFail,
  conformanceProbability: every.conformanceProbability,
  decisionRisk: every.decisionRisk,
  enScore: every.enScore,
  targetGap: every.targetGap,
  leakageDifference: every.leakageDifference,
  holeDiameter: every.holeDiameter,
  finalForecast: every.finalForecast,
  allowedLeakage: every.allowedLeakage,
  pressureStations: every.pressureStations,
  fanDemand: every.fanDemand,
  stackPressure: every.stackPressure,
  windPressure: every.windPressure,
  componentLeakage: every.componentLeakage,
  areaFlow: every.areaFlow,
  infiltrationFlow: every.infiltrationFlow,
  heatLoss: every.heatLoss,
  convertUnits: every.convertUnits,
  methodVersion: every.methodVersion,
});

/** Registers the functions of every build, and more, by their ids, the names in upper case, by which Excel finds them. */
export function register(more: Readonly<Record<string, (...given: any[]) => unknown>> = {}): void {
  for (const [name, cellFunction] of Object.entries({ ...ofEveryBuild(), ...more }))
    CustomFunctions.associate(name.toUpperCase(), cellFunction);
}
