import { ratios, type Ratio } from "./ratio";
import { shippedFunctions } from "./shipped";

/** Invented sizes of ten thousand houses: volume, envelope area and floor area in columns, as a sheet hands them over. */
const houses = Array.from({ length: 10_000 }, (_, index) => 250 + index / 10);
const [volumes, envelopes, floors] = [1, 1.3, 0.4].map((factor) => houses.map((volume) => [volume * factor]));
const settings = [
  ["quantity", "air change rate"],
  ["exponent", 0.65],
];

/** What no program can leave out: the eight results of each house, from plain numbers. */
function bareSizes(): number[][] {
  return houses.map((volume, index) => {
    const flow = 0.6 * volume;
    // An exponent for each house, or the engine would take the powers out of the loop.
    const exponent = 0.65 + index / 1e9;
    const area = (pressure: number, factor: number) => factor * flow * Math.pow(pressure / 50, exponent);
    return [
      flow,
      flow,
      flow / volume,
      flow / (volume * 1.3),
      flow / (volume * 0.4),
      area(4, 1),
      area(10, 2),
      area(10, 3),
    ];
  });
}

/** Ratio to the bare arithmetic over the same houses. */
export function planningRatios(bundle: string): Ratio[] {
  const allowedLeakage = shippedFunctions(bundle).get("ALLOWEDLEAKAGE")!;
  const sizes = [volumes, envelopes, floors];
  const ofHalf = sizes.map((cells) => cells?.slice(0, houses.length / 2));
  return ratios({ name: "bare arithmetic", run: bareSizes }, [
    {
      name: "ALLOWEDLEAKAGE, cells to table",
      run: () => allowedLeakage([[0.6]], settings, ...sizes),
      half: () => allowedLeakage([[0.6]], settings, ...ofHalf),
    },
  ]);
}
