import { call, keepBlanks, quoted, type Setting, writeSettings } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { barChart } from "../blocks/chart";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, input, looks, native, palette, style } from "../blocks/style";
import { between, oneOf, text, wholeBetween } from "../blocks/validation";
import { chosen, footer, sheets, variantColumns } from "./layout";
import { site } from "./scenario";

/** Rows of what is typed on the sheet In use: the house in column C, climate and money in column I. */
const siteRows = {
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

/** What the leakage means while people live in the house: air, heat, cost, by five models side by side. */
export function inUsePage(): Page {
  const sheet = new Sheet(
    sheets.use,
    [1.5, 32, 10.5, 9, 9.5, 9.5, 1.5, 24, 10.5, 9, 9.5, 9.5, 11, 27],
    palette.petrol,
    {
      orientation: "landscape",
      areas: [`B1:N${heatAt + 3}`, `B${modelsAt - 3}:N${lastOfModels}`],
      titleRows: "1:4",
      pages: 2,
      footer,
      workingPaper: true,
    },
  );
  const lead =
    "Infiltration in use is not the leakage at 50 Pa, and no model is a measurement: the spread between them is part of the answer.";
  writePageHead(sheet, letterhead, ["B", "N"], "In use: infiltration, heat and cost", lead);
  sheet.heightOf(14.5, 5, lastOfModels);
  writeSiteInputs(sheet);
  const blocks = {
    Base: writeSettingsFor(sheet, "Base", ["B", "C"]),
    Variant: writeSettingsFor(sheet, "Variant", ["H", "I"]),
  };
  writeHeat(sheet);
  writeModelTable(sheet, blocks);
  return {
    sheet,
    names: {
      UsedModel: onSheet(sheets.use, `C${siteRows.model}`),
      Currency: onSheet(sheets.use, `I${siteRows.currency}`),
      Models: ofModels("B"),
      BaseInfiltration: ofModels("C"),
      VariantInfiltration: ofModels("I"),
      BaseEnergy: ofModels("E"),
      VariantEnergy: ofModels("K"),
      BaseCost: ofModels("F"),
      VariantCost: ofModels("L"),
    },
  };
}

/** Site, house, climate and price: what the models need and nobody can measure for a house that is not built. */
function writeSiteInputs(sheet: Sheet): void {
  writeHeading(sheet, 5, ["B", "F"], "House and site");
  writeHeading(sheet, 5, ["H", "N"], "Climate and price");
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
  writeLines(sheet, house, ["B", "C", "E"], true);
  writeLines(sheet, climate, ["H", "I", "J"], false);
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
  addRules(sheet);
}

function writeLines(
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

function addRules(sheet: Sheet): void {
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

/** Rows of the sheet In use: settings of the calls, heat of one m³/h, first of the models. */
const useRows = { block: 23, heat: 38, models: 46 } as const;

interface Model {
  readonly name: string;
  readonly source: string;
}

/** Published models, each an estimate of its own. */
const models: readonly Model[] = [
  { name: "n50/20", source: "Sherman 1987, a rule of thumb (C)" },
  { name: "basic", source: "ASHRAE Fundamentals 2021, ch. 16 (C)" },
  { name: "enhanced", source: "ASHRAE Fundamentals 2021, ch. 16 (C)" },
  { name: "EN ISO 13789", source: "EN ISO 13789:2017 (M)" },
  { name: "ASHRAE 62.2", source: "ASHRAE 62.2, credit for infiltration (M)" },
];

const lastModel = useRows.models + models.length - 1;
const chartAt = lastModel + 5;

/** Last row of the chart below the models. */
const lastOfModels = chartAt + 18;

/** A column of the table of models. */
function ofModels(letter: string): string {
  return onSheet(sheets.use, `${letter}${useRows.models}:${letter}${lastModel}`);
}

/** Infiltration, heat and cost of base and variant by each model, the chart below. */
function writeModelTable(sheet: Sheet, blocks: Readonly<Record<"Base" | "Variant", string>>): void {
  writeHeading(sheet, useRows.models - 3, ["B", "N"], "The models side by side");
  for (const [letter, which] of [
    ["C", "Base"],
    ["I", "Variant"],
  ] as const)
    sheet.formula(
      `${letter}${useRows.models - 2}`,
      `"${which}"&IF(${which}Index="","",": "&${which}Name)`,
      looks.group,
    );
  const heads = ["m³/h", "1/h", "kWh a season", "cost a season"];
  writeColumnHeads(sheet, useRows.models - 1, "B", ["<model", ...heads]);
  writeColumnHeads(sheet, useRows.models - 1, "I", [...heads, "<<variant costs", "<source"]);
  models.forEach(({ name, source }, index) => {
    const row = useRows.models + index;
    sheet.put(`B${row}`, name, looks.label);
    writeModelCells(sheet, row, ["C", "D", "E", "F"], name, blocks.Base, "Base", useRows.heat + 2);
    writeModelCells(sheet, row, ["I", "J", "K", "L"], name, blocks.Variant, "Variant", useRows.heat + 3);
    const difference = `ROUND(ABS(L${row}-F${row}),0)&IF(L${row}>F${row}," more"," less")`;
    sheet.formula(
      `M${row}`,
      `IF(COUNT(F${row},L${row})<2,"",IF(L${row}=F${row},"the same",${difference}))`,
      style({ indent: 1 }, native(undefined, "left")),
    );
    sheet.put(`N${row}`, source, style({ size: 8, colour: palette.grey, wrap: true }, looks.label)).height(24, row);
  });
  sheet.put(
    `B${lastModel + 1}`,
    "Cost is energy × price as typed above; the price is yours. EN ISO 13789 counts the imbalance of supply and extract; the others stand for a house without. Ventilation on purpose comes on top.",
    looks.note,
  );
  sheet.merge(`B${lastModel + 1}:N${lastModel + 2}`);
  drawChart(sheet);
}

function writeModelCells(
  sheet: Sheet,
  row: number,
  [flow, rate, energy, cost]: readonly [string, string, string, string],
  model: string,
  block: string,
  which: "Base" | "Variant",
  leakageRow: number,
): void {
  const weather = [keepBlanks(`$I$${siteRows.difference}`), keepBlanks(`$I$${siteRows.wind}`)] as const;
  const infiltration = call("INFILTRATIONFLOW", quoted(model), `$C$${leakageRow}`, undefined, ...weather, block);
  sheet.addIn(`${flow}${row}`, infiltration, fromAddIn(decimals(1)));
  const volume = chosen(which, variantColumns.volume);
  sheet.formula(
    `${rate}${row}`,
    `IF(COUNT(${flow}${row},${volume})<2,"",${flow}${row}/${volume})`,
    native(decimals(3)),
  );
  const perFlow = `$E$${useRows.heat + 1}`;
  sheet.formula(
    `${energy}${row}`,
    `IF(COUNT(${flow}${row},${perFlow})<2,"",${flow}${row}*${perFlow})`,
    native(decimals(0)),
  );
  const price = `$I$${siteRows.price}`;
  sheet.formula(
    `${cost}${row}`,
    `IF(COUNT(${energy}${row},${price})<2,"",${energy}${row}*${price})`,
    native(decimals(0)),
  );
}

function drawChart(sheet: Sheet): void {
  writeHeading(sheet, chartAt - 1, ["B", "N"], "Heat of the infiltration over the season, kWh");
  const bars = [
    { name: "Base", values: ofModels("E"), colour: palette.petrol },
    { name: "Variant", values: ofModels("K"), colour: palette.inputEdge },
  ];
  sheet.chart(
    barChart(
      "upright",
      ofModels("B"),
      bars,
      { from: { row: chartAt - 1, col: 1 }, to: { row: chartAt + 18, col: 14 } },
      {
        axisTitle: "kWh a season",
        alternative: "Bars of the heat that infiltration takes over a season by five models, of base and variant.",
        textSize: 9,
        format: "0",
      },
    ),
  );
}

const { block: blockAt, heat: heatAt, models: modelsAt } = useRows;

function writeSettingsFor(sheet: Sheet, which: "Base" | "Variant", columns: readonly [string, string]): string {
  if (which === "Base") writeHeading(sheet, blockAt - 2, ["B", "N"], "Handed to the add-in");
  sheet.formula(`${columns[0]}${blockAt - 1}`, `"${which}"&IF(${which}Index="","",": "&${which}Name)`, looks.group);
  const typed = (column: "C" | "I", row: number) => keepBlanks(`$${column}$${row}`);
  const settings: readonly Setting[] = [
    ["exponent", keepBlanks("Exponent"), decimals(2)],
    ["storeys", chosen(which, variantColumns.storeys), decimals(0)],
    ["building height", chosen(which, variantColumns.height), decimals(2)],
    ["floor area", chosen(which, variantColumns.floorArea), decimals(1)],
    ["shelter class", typed("C", siteRows.shelter), decimals(0)],
    ["flue", typed("C", siteRows.flue)],
    ["foundation", typed("C", siteRows.foundation)],
    ["exposed sides", typed("C", siteRows.sides)],
    ["shielding", typed("C", siteRows.shielding)],
    ["supply flow", typed("C", siteRows.supply), decimals(0)],
    ["extract flow", typed("C", siteRows.extract), decimals(0)],
    ["weather and shielding factor", typed("C", siteRows.factor), decimals(2)],
  ];
  return writeSettings(sheet, columns, blockAt, settings);
}

/** Everything is in proportion to the flow, so the heat of one m³/h serves all models and keeps the chain of calls short. */
function writeHeat(sheet: Sheet): void {
  writeHeading(sheet, heatAt - 1, ["B", "N"], "Heat that goes with one m³/h of air in use");
  writeColumnHeads(sheet, heatAt, "C", ["W/K", "W, design", "kWh, season"]);
  sheet.put(`B${heatAt + 1}`, "Loss of one m³/h in use", looks.label);
  const at = (row: number) => keepBlanks(`$I$${row}`);
  const loss = call("HEATLOSS", "1", at(siteRows.design), at(siteRows.hours), at(siteRows.capacity));
  sheet.addIn(`C${heatAt + 1}:E${heatAt + 1}`, loss, (_, column) => fromAddIn(decimals(column === 0 ? 3 : 2)));
  for (const [offset, which] of [
    [2, "Base"],
    [3, "Variant"],
  ] as const) {
    const row = heatAt + offset;
    sheet.put(`B${row}`, `Leakage at 50 Pa taken, ${which.toLowerCase()}, m³/h`, looks.label);
    const flow = chosen(which, variantColumns.flow);
    const share = `$C$${siteRows.share}`;
    sheet.formula(`C${row}`, `IF(COUNT(${flow},${share})<2,"",${flow}*${share}/100)`, native(decimals(1)));
    sheet.paint(`D${row}:E${row}`, looks.label);
  }
}
