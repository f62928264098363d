import { call, quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { barChart } from "../blocks/bar-chart";
import { columnHeads, pageHead, section } from "../blocks/heading";
import { letterhead } from "../blocks/letterhead";
import { palette } from "../blocks/palette";
import { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, style } from "../blocks/style";
import { kept, settingsBlock, type Setting } from "./call-settings";
import { chosen, footer, sheets, variantColumns, type Page } from "./places";
import { siteInputs, siteRows } from "./site-inputs";

const blockAt = 23;
const blockRows = 12;
const heatAt = blockAt + blockRows + 3;
const modelsAt = heatAt + 8;

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

const modelRow = (index: number) => modelsAt + index;
const lastModel = modelRow(models.length - 1);
const chartAt = lastModel + 5;

/** What the leakage means while people live in the house: air, heat, cost, by five models side by side. */
export function inUsePage(): Page {
  const lastRow = chartAt + 18;
  const sheet = new Sheet(sheets.use, [1.5, 34, 12, 10, 11, 11, 2, 25, 12, 10, 11, 11, 13, 33], palette.petrol, {
    orientation: "landscape",
    areas: [`B1:N${heatAt + 3}`, `B${modelsAt - 3}:N${lastRow}`],
    titleRows: "1:3",
    pages: 2,
    footer,
  });
  const lead =
    "Infiltration in use is not the leakage at 50 Pa, and no model is a measurement: the spread between them is part of the answer.";
  pageHead(sheet, letterhead, ["B", "N"], "In use: infiltration, heat and cost", lead);
  sheet.heightOf(14.5, 5, lastRow);
  siteInputs(sheet);
  const blocks = { Base: settingsFor(sheet, "Base", ["B", "C"]), Variant: settingsFor(sheet, "Variant", ["H", "I"]) };
  heat(sheet);
  modelTable(sheet, blocks);
  chart(sheet);
  const column = (letter: string) => onSheet(sheets.use, `${letter}${modelsAt}:${letter}${lastModel}`);
  return {
    sheet,
    names: {
      UsedModel: onSheet(sheets.use, `C${siteRows.model}`),
      Currency: onSheet(sheets.use, `I${siteRows.currency}`),
      Models: column("B"),
      BaseInfiltration: column("C"),
      VariantInfiltration: column("I"),
      BaseEnergy: column("E"),
      VariantEnergy: column("K"),
      BaseCost: column("F"),
      VariantCost: column("L"),
    },
  };
}

function settingsFor(sheet: Sheet, which: "Base" | "Variant", columns: readonly [string, string]): string {
  if (which === "Base") section(sheet, blockAt - 2, ["B", "N"], "Handed to the add-in");
  sheet.formula(`${columns[0]}${blockAt - 1}`, `"${which}"&IF(${which}Index="","",": "&${which}Name)`, looks.group);
  const typed = (column: "C" | "I", row: number) => kept(`$${column}$${row}`);
  const settings: readonly Setting[] = [
    ["exponent", kept("Exponent"), decimals(2)],
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
  return settingsBlock(sheet, columns, blockAt, settings);
}

/** Everything is in proportion to the flow, so the heat of one m³/h serves all models and keeps the chain of calls short. */
function heat(sheet: Sheet): void {
  section(sheet, heatAt - 1, ["B", "N"], "Heat that goes with one m³/h of air in use");
  columnHeads(sheet, heatAt, "C", ["W/K", "W, design", "kWh, season"]);
  sheet.put(`B${heatAt + 1}`, "Loss of one m³/h in use", looks.label);
  const at = (row: number) => kept(`$I$${row}`);
  const loss = call("HEATLOSS", "1", at(siteRows.design), at(siteRows.hours), at(siteRows.capacity));
  sheet.addIn(`C${heatAt + 1}:E${heatAt + 1}`, loss, (_, column) => fromAddIn(decimals(column === 0 ? 3 : 2)));
  for (const [offset, which] of [
    [2, "Base"],
    [3, "Variant"],
  ] as const) {
    const row = heatAt + offset;
    sheet.put(`B${row}`, `Leakage at 50 Pa that is taken, ${which.toLowerCase()}, m³/h`, looks.label);
    const flow = chosen(which, variantColumns.flow);
    const share = `$C$${siteRows.share}`;
    sheet.formula(`C${row}`, `IF(COUNT(${flow},${share})<2,"",${flow}*${share}/100)`, native(decimals(1)));
    sheet.paint(`D${row}:E${row}`, looks.label);
  }
}

function modelTable(sheet: Sheet, blocks: Readonly<Record<"Base" | "Variant", string>>): void {
  section(sheet, modelsAt - 3, ["B", "N"], "The models side by side");
  for (const [letter, which] of [
    ["C", "Base"],
    ["I", "Variant"],
  ] as const)
    sheet.formula(`${letter}${modelsAt - 2}`, `"${which}"&IF(${which}Index="","",": "&${which}Name)`, looks.group);
  const heads = ["m³/h", "1/h", "kWh a season", "cost a season"];
  columnHeads(sheet, modelsAt - 1, "B", ["<model", ...heads]);
  columnHeads(sheet, modelsAt - 1, "I", [...heads, "<<variant costs", "<source"]);
  models.forEach(({ name, source }, index) => {
    const row = modelRow(index);
    sheet.put(`B${row}`, name, looks.label);
    modelCells(sheet, row, ["C", "D", "E", "F"], name, blocks.Base, "Base", heatAt + 2);
    modelCells(sheet, row, ["I", "J", "K", "L"], name, blocks.Variant, "Variant", heatAt + 3);
    const difference = `ROUND(ABS(L${row}-F${row}),0)&IF(L${row}>F${row}," more"," less")`;
    sheet.formula(
      `M${row}`,
      `IF(COUNT(F${row},L${row})<2,"",IF(L${row}=F${row},"the same",${difference}))`,
      style({ indent: 1 }, native(undefined, "left")),
    );
    sheet.put(`N${row}`, source, style({ size: 8, colour: palette.grey }, looks.label));
  });
  sheet.put(
    `B${lastModel + 1}`,
    "Cost is energy × price as typed above; the price is yours. EN ISO 13789 counts the imbalance of supply and extract; the others stand for a house without. Ventilation on purpose comes on top.",
    looks.note,
  );
  sheet.merge(`B${lastModel + 1}:N${lastModel + 2}`);
}

function modelCells(
  sheet: Sheet,
  row: number,
  [flow, rate, energy, cost]: readonly [string, string, string, string],
  model: string,
  block: string,
  which: "Base" | "Variant",
  leakageRow: number,
): void {
  const weather = [kept(`$I$${siteRows.difference}`), kept(`$I$${siteRows.wind}`)] as const;
  const infiltration = call("INFILTRATIONFLOW", quoted(model), `$C$${leakageRow}`, undefined, ...weather, block);
  sheet.addIn(`${flow}${row}`, infiltration, fromAddIn(decimals(1)));
  const volume = chosen(which, variantColumns.volume);
  sheet.formula(
    `${rate}${row}`,
    `IF(COUNT(${flow}${row},${volume})<2,"",${flow}${row}/${volume})`,
    native(decimals(3)),
  );
  const perFlow = `$E$${heatAt + 1}`;
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

function chart(sheet: Sheet): void {
  section(sheet, chartAt - 1, ["B", "N"], "Heat of the infiltration over the season, kWh");
  const column = (letter: string) => onSheet(sheets.use, `${letter}${modelsAt}:${letter}${lastModel}`);
  const bars = [
    { name: "Base", values: column("E"), colour: palette.petrol },
    { name: "Variant", values: column("K"), colour: palette.inputEdge },
  ];
  sheet.chart(
    barChart(
      "upright",
      column("B"),
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
