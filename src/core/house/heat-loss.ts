import { ensure, requirePositive } from "../errors";

/**
 * Heat capacity of a cubic metre of air, Wh/(m³·K): 0.34, as in EN 12831:2003 (from memory: check against your own copy). EN ISO 13789 has 0.33.
 */
const airHeatCapacity = 0.34;

/** What a heat loss is for; either may be absent. */
interface HeatLossTerms {
  readonly temperatureDifference?: number | undefined;
  readonly degreeHours?: number | undefined;
}

export interface HeatLoss {
  /** H, W/K. */
  readonly coefficient: number;
  /** W, at the temperature difference. */
  readonly power?: number;
  /** kWh, over the degree hours. */
  readonly energy?: number;
}

/**
 * Heat that goes with a flow of air: H = c·q, power H·ΔT, energy H·degree hours.
 * @param flow m³/h
 * @param temperatureDifference Indoors minus outdoors, K; below 0 the flow brings heat in.
 * @param degreeHours K·h
 * Errors: flow not above 0, a heat capacity outside 0.2 to 0.4 (altitude lowers it), degree hours below 0.
 * Source: EN 12831:2003 and EN ISO 13789:2017, heat transfer coefficient by ventilation.
 * Example: heatLoss(30, { temperatureDifference: 20, degreeHours: 84_000 }) → { coefficient: 10.2, power: 204.0, energy: 856.8 }
 */
export function heatLoss(
  flow: number,
  { temperatureDifference, degreeHours }: HeatLossTerms,
  heatCapacity = airHeatCapacity,
): HeatLoss {
  requirePositive(flow, "flow");
  ensure(heatCapacity >= 0.2 && heatCapacity <= 0.4, "heat capacity", "heatCapacity");
  const coefficient = heatCapacity * flow;
  if (degreeHours !== undefined) requirePositive(degreeHours, "degree hours");
  return {
    coefficient,
    ...(temperatureDifference !== undefined && { power: coefficient * temperatureDifference }),
    ...(degreeHours !== undefined && { energy: (coefficient * degreeHours) / 1000 }),
  };
}
