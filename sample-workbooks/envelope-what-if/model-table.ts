import { call, kept, quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { barChart } from "../blocks/chart";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, style } from "../blocks/style";
import { chosen, sheets, variantColumns } from "./places";
import { siteRows } from "./site-inputs";

/** Rows of the sheet In use: settings of the calls, heat of one m³/h, first of the models. */
export const useRows = { block: 23, heat: 38, models: 46 } as const;

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
export const lastOfModels = chartAt + 18;

/** A column of the table of models. */
export function ofModels(letter: string): string {
  return onSheet(sheets.use, `${letter}${useRows.models}:${letter}${lastModel}`);
}

/** Infiltration, heat and cost of base and variant by each model, the chart below. */
export function modelTable(sheet: Sheet, blocks: Readonly<Record<"Base" | "Variant", string>>): void {
  section(sheet, useRows.models - 3, ["B", "N"], "The models side by side");
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
  columnHeads(sheet, useRows.models - 1, "B", ["<model", ...heads]);
  columnHeads(sheet, useRows.models - 1, "I", [...heads, "<<variant costs", "<source"]);
  models.forEach(({ name, source }, index) => {
    const row = useRows.models + index;
    sheet.put(`B${row}`, name, looks.label);
    modelCells(sheet, row, ["C", "D", "E", "F"], name, blocks.Base, "Base", useRows.heat + 2);
    modelCells(sheet, row, ["I", "J", "K", "L"], name, blocks.Variant, "Variant", useRows.heat + 3);
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
  chart(sheet);
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

function chart(sheet: Sheet): void {
  section(sheet, chartAt - 1, ["B", "N"], "Heat of the infiltration over the season, kWh");
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
