// Every add-in function by its TypeScript name; its id in Excel is the name in upper case.
export { envelopeSize, envelopeVolume, floorArea } from "./envelope";
export { airDensity, airViscosity, barometricPressure, densityCorrection } from "./air";
export { baselinePressure, fanFlow, inducedPressure } from "./readings";
export {
  fitResiduals,
  flowExponent,
  leakageCoefficient,
  leakageFit,
  leakageFlow,
  referenceCoefficient,
} from "./leakage";
export { airChangeRate, averagedResult, leakageArea, specificLeakage } from "./results";
export { testResult } from "./test-result";
export { passFail } from "./judgement";
export { convertUnits, methodVersion } from "./service";
