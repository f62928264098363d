import { describe, expect, it } from "vitest";
import "../look-up";
import { slow } from "../../time-outs";
import { block, fillBlank } from "./fill";

const day = 46_346;

/** Stack at the gauge, 1 m above the ground, about a neutral height of half of 8 m; dry air outdoors at 101 325 Pa. */
function stackByHand(outdoors: number, indoors: number): number {
  const density = 101_325 / (287.055 * (outdoors + 273.15));
  return (density * 9.80665 * (1 - 4) * (indoors - outdoors)) / (indoors + 273.15);
}

describe("the blank test-day.xlsx, filled in", { timeout: slow }, () => {
  const houses = [
    { word: "LIKELY", outdoors: 10, wind: 4, gusts: 7, hour: "morning" },
    { word: "DOUBTFUL", outdoors: 10, wind: 38, gusts: 60, hour: "morning" },
    { word: "OPEN", outdoors: 10, wind: 4, gusts: 7, hour: null },
  ] as const;

  it.each(houses)("says that a valid test is $word", ({ word, outdoors, wind, gusts, hour }) => {
    const form = fillBlank("test-day.xlsx", {
      ...block("Day", ["C"], 6, [["Teal Cottage"], ["6 Pier Road"], ["Ada Fenn"], ["Odo Marsh"]]),
      ...block("Day", ["G"], 6, [[day], ["Thrift & Fenn"], ["Air tests"]]),
      ...block("Day", ["C"], 11, [["ISO 9972"], ["method 2"], [hour]]),
      ...block("Day", ["G"], 11, [[day + 100], [day + 200]]),
      ...block("Weather", ["D"], 6, [[8], [20], [1]]),
      ...block("Weather", ["D"], 10, [["km/h"], ["weather station"], [0.5], [0.3]]),
      ...block("Weather", [..."BCDE"], 19, [["morning", outdoors, wind, gusts]]),
      ...block("Pressures", ["C"], 7, [[60], [8]]),
      ...block("Fan", ["C"], 6, [["air change rate"], [1], [50]]),
      ...block("Fan", ["C"], 10, [[250], [300], [99], [0.65], [1.2041]]),
      ...block("Fan", [..."BCDEF"], 18, [
        ["wide", 60, 0.505, 10, 300],
        ["narrow", 18, 0.505, 10, 300],
      ]),
    });
    expect(form.listErrors()).toEqual([]);
    expect(form.listNotEvaluated()).toEqual([]);
    expect(form.cell("Weather!L19")).toBeCloseToRelative(stackByHand(outdoors, 20));
    expect(form.cell("Weather!N19")).toBeCloseToRelative(0.5 * 1.2041 * ((gusts / 3.6) * 0.5) ** 2);
    expect(form.cell("Day!B15")).toBe(word);
    expect(form.verify()).toEqual([]);
  });
});

describe("the blank envelope-what-if.xlsx, filled in", { timeout: slow }, () => {
  it("gives size, allowed flow and leakage area of three houses, each with its limit", () => {
    const limits = [
      ["Passive house, new build", 0.6],
      ["Passive house, retrofit", 1],
      ["IECC 2021, zones 3 to 8", 3],
    ] as const;
    const lengths = [10, 12, 14];
    const [width, storeys, storey] = [8, 2, 2.7];
    const form = fillBlank("envelope-what-if.xlsx", {
      ...block("Overview", ["C"], 6, [["Teal Cottage"], ["6 Pier Road"], ["Ada Fenn"], ["Odo Marsh"]]),
      ...block("Overview", ["F"], 6, [[day], ["Thrift & Fenn"], ["Air tests"]]),
      ...block("Overview", ["C"], 11, [["House 1"], ["House 2"]]),
      "Variants!C5": 0.65,
      ...block(
        "Variants",
        [..."BCDEFGHIJ"],
        9,
        lengths.map((length, index) => [
          `House ${index + 1}`,
          "outline",
          length,
          width,
          storeys,
          storey,
          "flat",
          null,
          12,
        ]),
      ),
      ...block(
        "Variants",
        ["C"],
        22,
        limits.map(([name]) => [name]),
      ),
    });
    expect(form.listNotEvaluated()).toEqual([]);
    lengths.forEach((length, index) => {
      const [, limit] = limits[index]!;
      const height = storeys * storey;
      const volume = length * width * height;
      // What a limit counts depends on its volume: room by room leaves out what inner walls and floors take.
      const flow = limit * volume * (index < 2 ? 0.88 : 1);
      // ISO 9972: the area of a sharp opening through which the flow at 4 Pa would pass, cm².
      const area = ((flow * (4 / 50) ** 0.65) / 3600) * Math.sqrt(1.2041 / (2 * 4)) * 10_000;
      expect(form.cell(`Variants!K${9 + index}`)).toBeCloseToRelative(volume);
      expect(form.cell(`Variants!L${9 + index}`)).toBeCloseToRelative(
        2 * length * width + 2 * (length + width) * height,
      );
      expect(form.cell(`Variants!C${35 + index}`)).toBeCloseToRelative(flow);
      expect(form.cell(`Variants!H${35 + index}`)).toBeCloseToRelative(area);
    });
    expect(form.verify()).toEqual([]);
  });
});
