import { call, kept, type Setting, settingsBlock } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { columnHeads, letterhead, pageHead, section } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette } from "../blocks/style";
import { lastOfModels, modelTable, ofModels, useRows } from "./model-table";
import { chosen, footer, sheets, variantColumns } from "./places";
import { siteInputs, siteRows } from "./site-inputs";

const { block: blockAt, heat: heatAt, models: modelsAt } = useRows;

/** What the leakage means while people live in the house: air, heat, cost, by five models side by side. */
export function inUsePage(): Page {
  const sheet = new Sheet(sheets.use, [1.5, 34, 12, 10, 11, 11, 2, 25, 12, 10, 11, 11, 13, 33], palette.petrol, {
    orientation: "landscape",
    areas: [`B1:N${heatAt + 3}`, `B${modelsAt - 3}:N${lastOfModels}`],
    titleRows: "1:4",
    pages: 2,
    footer,
  });
  const lead =
    "Infiltration in use is not the leakage at 50 Pa, and no model is a measurement: the spread between them is part of the answer.";
  pageHead(sheet, letterhead, ["B", "N"], "In use: infiltration, heat and cost", lead);
  sheet.heightOf(14.5, 5, lastOfModels);
  siteInputs(sheet);
  const blocks = { Base: settingsFor(sheet, "Base", ["B", "C"]), Variant: settingsFor(sheet, "Variant", ["H", "I"]) };
  heat(sheet);
  modelTable(sheet, blocks);
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
