/** Figures of the estimator's workbook, computed from published formulas without a line of the project's own code. */

interface House {
  readonly volume: number;
  readonly envelope: number;
  readonly floor: number;
}

/** A rectangular house of two storeys under a gable roof, the ridge along the length: plane geometry. */
export function gableHouse(length: number, width: number, wall: number, rise: number): House {
  const plan = length * width;
  const slope = Math.sqrt((width / 2) ** 2 + rise ** 2);
  return {
    volume: plan * wall + (plan * rise) / 2,
    envelope: plan + 2 * (length + width) * wall + 2 * length * slope + width * rise,
    floor: 2 * plan,
  };
}

/** The same under a flat roof. */
export function flatHouse(length: number, width: number, wall: number): House {
  const plan = length * width;
  return { volume: plan * wall, envelope: 2 * plan + 2 * (length + width) * wall, floor: 2 * plan };
}

/** Density of dry air at 20 °C and 101 325 Pa, kg/m³. */
const reference = 1.2041;

/** Leakage area, cm², of a flow in m³/h at 50 Pa, at another pressure and with a discharge coefficient. */
export function leakageArea(flow: number, pressure: number, discharge: number, n = 0.65): number {
  const perSecond = (flow / 3600) * (pressure / 50) ** n;
  return (1e4 * perSecond) / discharge / Math.sqrt((2 * pressure) / reference);
}

/** Flow at 50 Pa, m³/h, of 1 cm² of leakage area. */
export function flowOfArea(pressure: number, discharge: number, n: number): number {
  return 3600 * 1e-4 * discharge * Math.sqrt((2 * pressure) / reference) * (50 / pressure) ** n;
}

/** Flow at 50 Pa of the known components of the invented house, m³/h; windows in m² by the classes of EN 12207. */
export function componentsByHand(given: {
  readonly perimeter: number;
  readonly storeys: number;
  readonly windows4: number;
  readonly windows3: number;
  readonly doors3: number;
  readonly hatches: number;
  readonly ducts: number;
  readonly grommets: number;
}): number {
  const atFifty = (0.5 ** 2) ** (1 / 3);
  const joint = flowOfArea(4, 1, 0.65);
  const hole = flowOfArea(50, 0.6, 0.5);
  return (
    given.windows4 * 3 * atFifty +
    given.windows3 * 9 * atFifty +
    given.doors3 * 9 * atFifty +
    given.perimeter * (0.8 + 0.08 * (given.storeys - 1) + 0.5) * joint +
    (given.hatches * 18 + 5 + given.ducts * 1) * joint +
    (given.grommets * 0.1 + 5 * 0.5) * hole
  );
}

/** Humid air, 50 % relative humidity, 101 325 Pa. */
function density(celsius: number): number {
  const kelvin = celsius + 273.15;
  const vapour = 0.5 * Math.exp(59.484085 - 6790.4985 / kelvin - 5.02802 * Math.log(kelvin));
  return (101_325 - 0.37802 * vapour) / (287.055 * kelvin);
}

/**
 * What the fan must give to hold a pressure in a house of a leakage at reference conditions, depressurizing: the curve at the density of the
 * air in the leaks, then by the balance of mass to the air indoors, m³/h.
 */
export function fanFlowByHand(q50: number, pressure: number, indoors: number, outdoors: number, n = 0.65): number {
  const inLeaks = density(outdoors);
  const envelope = q50 * (pressure / 50) ** n * (reference / inLeaks) ** (1 - n);
  return (envelope * inLeaks) / density(indoors);
}

/** Infiltration of a two-storey house by the published models, m³/h, from q50 in m³/h; the site is the invented one. */
export function infiltrationByHand(q50: number, height: number): Readonly<Record<string, number>> {
  const difference = 12.5;
  const wind = 4.2;
  const area = leakageArea(q50, 4, 1);
  const basic = area * Math.sqrt(0.00029 * difference + 0.000231 * wind ** 2);
  const c = q50 / 3600 / 50 ** 0.65;
  const stack = c * 0.078 * difference ** 0.65;
  const gusts = c * 0.17 * (0.7 * 0.59 * wind) ** 1.3;
  const normalized = 0.1 * area * (height / 2.5) ** 0.4;
  return {
    "n50/20": q50 / 20,
    basic: 3.6 * basic,
    enhanced: 3600 * Math.sqrt(stack ** 2 + gusts ** 2),
    "EN ISO 13789": q50 * 0.07,
    // NL is 1000·ELA/A_F in m²/m², so with the area in cm² a tenth of it, A_F in m²: the floor area cancels.
    "ASHRAE 62.2": (3.6 * normalized * 0.62) / 1.44,
  };
}
