import { section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, input, looks } from "../blocks/style";
import { between, oneOf, text, wholeBetween } from "../blocks/validation";
import { site } from "./scenario";

/** Rows of what is typed on the sheet In use: the house in column C, climate and money in column I. */
export const siteRows = {
  model: 6,
  share: 7,
  shelter: 8,
  flue: 9,
  foundation: 10,
  sides: 11,
  shielding: 12,
  supply: 13,
  extract: 14,
  factor: 15,
  difference: 6,
  wind: 7,
  design: 8,
  hours: 9,
  capacity: 10,
  price: 11,
  currency: 12,
} as const;

type Line = readonly [row: number, label: string, value: string | number | null, unit: string, format?: string];

/** Site, house, climate and price: what the models need and nobody can measure for a house that is not built. */
export function siteInputs(sheet: Sheet): void {
  section(sheet, 5, ["B", "F"], "House and site");
  section(sheet, 5, ["H", "N"], "Climate and price");
  const house: readonly Line[] = [
    [siteRows.model, "Model that the sheet Overview shows", "EN ISO 13789", ""],
    [siteRows.share, "Leakage taken, share of the limit", 100, "%", decimals(0)],
    [siteRows.shelter, "Shelter class, 1 open to 5 sheltered", site.shelterClass, "", decimals(0)],
    [siteRows.flue, "Flue", site.flue, ""],
    [siteRows.foundation, "Foundation", site.foundation, ""],
    [siteRows.sides, "Sides exposed to wind", site.exposedSides, ""],
    [siteRows.shielding, "Shielding", site.shielding, ""],
    [siteRows.supply, "Mechanical supply", site.supply, "m³/h", decimals(0)],
    [siteRows.extract, "Mechanical extract", site.extract, "m³/h", decimals(0)],
    [siteRows.factor, "Weather and shielding factor", site.weatherFactor, "", decimals(2)],
  ];
  const climate: readonly Line[] = [
    [siteRows.difference, "Mean temperature difference", site.meanDifference, "K", decimals(1)],
    [siteRows.wind, "Mean wind, weather station", site.wind, "m/s", decimals(1)],
    [siteRows.design, "Design difference", site.designDifference, "K", decimals(1)],
    [siteRows.hours, "Degree hours of the season", site.degreeHours, "K·h", decimals(0)],
    [siteRows.capacity, "Heat in the air", site.heatCapacity, "Wh/(m³·K)", decimals(2)],
    [siteRows.price, "Price of heat", site.price, "per kWh", decimals(3)],
    [siteRows.currency, "Currency", site.currency, ""],
  ];
  write(sheet, house, ["B", "C", "E"], true);
  write(sheet, climate, ["H", "I", "J"], false);
  sheet.put(
    "H13",
    "All of it is invented here; take your own. Degree hours are degree days × 24. Heat in the air: 0.34 by EN 12831:2003 (M), 0.33 by EN ISO 13789 (M). Price per kWh of heat, after the efficiency of the boiler or heat pump.",
    looks.note,
  );
  sheet.merge("H13:N15");
  sheet.put(
    "B17",
    "Shelter class (ASHRAE Fundamentals 2021, ch. 16, C): 1 no obstacles, 2 isolated rural house, 3 some obstacles about two house heights away, 4 suburban street, 5 close urban. Flue and foundation count in the enhanced model only. " +
      "Exposed sides and shielding belong to EN ISO 13789 (M). The weather and shielding factor of ASHRAE 62.2 comes from its table of places (M): most lie between 0.3 and 1.2. Storeys: the ASHRAE models know 1, 2 and 3.",
    looks.note,
  );
  sheet.merge("B17:N20");
  validate(sheet);
}

function write(
  sheet: Sheet,
  lines: readonly Line[],
  [label, value, unit]: readonly [string, string, string],
  wide: boolean,
): void {
  for (const [row, words, given, measure, format] of lines) {
    sheet.put(`${label}${row}`, words, looks.label).put(`${value}${row}`, given, input(format, "left"));
    if (wide) sheet.merge(`${value}${row}:D${row}`);
    sheet.put(`${unit}${row}`, measure || null, looks.unit);
  }
}

function validate(sheet: Sheet): void {
  const house = (row: number) => `C${row}:D${row}`;
  const models = ["n50/20", "basic", "enhanced", "EN ISO 13789", "ASHRAE 62.2"];
  sheet.validate(
    oneOf(house(siteRows.model), models, "Model", "Its figures stand on the sheet Overview."),
    between(
      house(siteRows.share),
      1,
      1000,
      "Share of the limit, %",
      "100: the house just meets its limit. More or less: your estimate.",
    ),
    wholeBetween(house(siteRows.shelter), 1, 5, "Shelter class", "1 no obstacles, 3 some, 5 close urban."),
    oneOf(house(siteRows.flue), ["yes", "no"], "Flue", "Whether an open flue stands in the house."),
    oneOf(house(siteRows.foundation), ["basement or slab", "crawl space"], "Foundation", "What the house stands on."),
    oneOf(house(siteRows.sides), ["several", "one"], "Exposed sides", "Sides that the wind reaches."),
    oneOf(
      house(siteRows.shielding),
      ["none", "moderate", "heavy"],
      "Shielding",
      "None: open land. Moderate: suburb. Heavy: city.",
    ),
    between(
      `C${siteRows.supply}:D${siteRows.extract}`,
      0,
      100000,
      "Ventilation, m³/h",
      "Mean mechanical flows; blank for none.",
    ),
    between(house(siteRows.factor), 0.1, 3, "Weather factor", "From the table of places of ASHRAE 62.2."),
    between(
      `I${siteRows.difference}:I${siteRows.design}`,
      0,
      100,
      "Climate",
      "Temperature differences in K, wind in m/s.",
    ),
    between(`I${siteRows.hours}`, 0, 300000, "Degree hours, K·h", "Degree days × 24."),
    between(`I${siteRows.capacity}`, 0.2, 0.4, "Heat in the air", "Wh/(m³·K); lower at altitude."),
    between(`I${siteRows.price}`, 0, 1000, "Price", "Of one kWh of heat, in your currency."),
    text(`I${siteRows.currency}`, "Currency", "A word or a sign.", 12),
  );
}
