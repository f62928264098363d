import { inchPound, rounded, type Units } from "../blocks/units";
import { larchHouse } from "./larch-house";
import type { DirectionReadings, Scenario } from "./scenario";

/** A run as it would have been typed in other units, rounded as the instruments of those units show. */
function converted(run: DirectionReadings, { in: unit, fromCelsius, digits }: Units): DirectionReadings {
  const degrees = (pair: readonly [number, number]) => pair.map((one) => rounded(fromCelsius(one), 1, 1));
  const [insideBefore = 0, insideAfter = 0] = degrees(run.indoorTemperature);
  const [outsideBefore = 0, outsideAfter = 0] = degrees(run.outdoorTemperature);
  return {
    ...run,
    indoorTemperature: [insideBefore, insideAfter],
    outdoorTemperature: [outsideBefore, outsideAfter],
    barometer: rounded(run.barometer, unit.barometer, digits.barometer),
    wind: rounded(run.wind, unit.speed, 1),
  };
}

const { in: unit } = inchPound;
const feet = (metres: number) => rounded(metres, unit.length, 2);
const corners = (outline: Scenario["outlines"]["ground"]) => outline.map(([x, y]) => [feet(x), feet(y)] as const);
const { outlines, storeyHeights, runs } = larchHouse;

/** A twin of the metric house across the sea, measured by tape in feet; its pressures are the same, in Pa. */
export const tamarackHouse: Scenario = {
  ...larchHouse,
  file: "final-test-ip.xlsx",
  units: inchPound,
  house: {
    ...larchHouse.house,
    name: "Tamarack House",
    address: "12 Driftwood Road, Heron Slough, Ought County",
    client: "Philippa and Amos Drewry",
    construction: "Wood frame, two stories, low-energy house",
    report: "QP-2026-131",
  },
  criterion: "Phius",
  convention: "room by room",
  rooms: larchHouse.rooms.map(
    ([room, storey, length, width, height]) => [room, storey, feet(length), feet(width), feet(height)] as const,
  ),
  tolerance: 0.07,
  outlines: { ground: corners(outlines.ground), upper: corners(outlines.upper), top: [] },
  storeyHeights: { ground: feet(storeyHeights.ground), upper: feet(storeyHeights.upper), top: null },
  houseHeight: rounded(larchHouse.houseHeight, unit.length, 1),
  instruments: larchHouse.instruments.map((one) => {
    const [name, type, number, accuracy, ...rest] = one;
    const stated = accuracy.replace("±0.5 K", "±1 °F").replace("±50 Pa", "±0.02 inHg");
    return [name, type, number, stated, ...rest] as const;
  }),
  openings: larchHouse.openings.map(
    ([name, what, c, ...rest]) => [name, what, rounded(c, unit.flow, 3), ...rest] as const,
  ),
  calibrationDensity: rounded(larchHouse.calibrationDensity, unit.density, inchPound.digits.density),
  runs: {
    depressurization: [
      converted(runs.depressurization[0], inchPound),
      runs.depressurization[1] && converted(runs.depressurization[1], inchPound),
    ],
    pressurization: [converted(runs.pressurization[0], inchPound), undefined],
  },
};
