// Every add-in function by its TypeScript name; its id in Excel is the name in upper case.
export { envelopeSize, envelopeVolume, floorArea } from "./envelope";
export { airDensity, airViscosity, barometricPressure, densityCorrection } from "./air";
export { baselinePressure, fanFlow, inducedPressure } from "./readings";
export { calibratedValue } from "./calibrated-value";
export { logStations } from "./log-stations";
export {
  fitResiduals,
  flowExponent,
  leakageCoefficient,
  leakageFit,
  leakageFlow,
  referenceCoefficient,
} from "./leakage";
export { airChangeRate, averagedResult, leakageArea, specificLeakage } from "./results";
export { onePointFlow, twoPointFlow } from "./quick";
export { resultCard } from "./result-card";
export { testResult } from "./test-result";
export { passFail } from "./judgement";
export { conformanceProbability } from "./conformance";
export { validityChecks } from "./validity";
export { holeDiameter, leakageDifference } from "./repair";
export { targetGap } from "./target-gap";
export { finalForecast } from "./final-forecast";
export { pressureStations, stackPressure, windPressure } from "./planning";
export { allowedLeakage } from "./allowed-leakage";
export { fanDemand } from "./fan-demand";
export { areaFlow, componentLeakage } from "./components";
export { heatLoss, infiltrationFlow } from "./house";
export { convertUnits, methodVersion } from "./service";
export { uncertaintyBudget } from "./uncertainty";
