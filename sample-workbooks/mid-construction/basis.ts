import { onSheet } from "../blocks/address";
import { writeFormLines } from "../blocks/form";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, looks, palette } from "../blocks/style";
import { between, oneOf, text } from "../blocks/validation";
import { footer, sheets } from "./layout";
import { calibrationDensity, currency, house, worth } from "./scenario";

/** Trades that the register can tell apart. */
export const tradeCount = 10;

const rows = { sizes: 6, instruments: 14, lists: 24 } as const;
const listRows = { first: rows.lists + 2, last: rows.lists + 2 + tradeCount - 1 } as const;

/** Columns and first row of the lists. */
export const listPlaces = {
  Elements: "B",
  Trades: "D",
  WaysOfFinding: "F",
  Storeys: "G",
  first: listRows.first,
} as const;

/** The lists that the leak register chooses from; the user's to extend. */
const lists: readonly (readonly [name: string, column: string, head: string, entries: readonly string[]])[] = [
  [
    "Elements",
    "B",
    "element",
    ["floor to wall", "wall", "wall to roof", "roof", "window", "door", "pipe or duct", "cable or box", "chimney"],
  ],
  [
    "Trades",
    "D",
    "trade",
    ["carpenter", "window fitter", "plumber", "ventilation", "electrician", "roofer", "plasterer"],
  ],
  ["WaysOfFinding", "F", "found by", ["smoke", "hand", "infrared", "sound"]],
  ["Storeys", "G", "storey", ["ground floor", "upper floor", "roof"]],
];

/** Sizes of the house, what the instruments are worth, and the lists of the leak register. */
export function basisPage(): Page {
  const sheet = new Sheet(sheets.basis, [1.5, 34, 3, 19, 3, 17, 15], palette.petrol, {
    orientation: "portrait",
    areas: [`B1:G${listRows.last + 1}`],
    pages: 1,
    footer,
  });
  const lead =
    "What every test shares: the sizes from the drawings, the uncertainties that decide whether a repair shows.";
  writePageHead(sheet, letterhead, ["B", "G"], sheets.basis, lead);
  sheet.heightOf(15, 5, listRows.last + 1);
  writeSizes(sheet);
  writeInstruments(sheet);
  const listNames = writeListTables(sheet);
  const place = (row: number) => onSheet(sheets.basis, `F${row}`);
  return {
    sheet,
    names: {
      InternalVolume: place(rows.sizes),
      VolumeConvention: place(rows.sizes + 1),
      EnvelopeArea: place(rows.sizes + 2),
      FloorArea: place(rows.sizes + 3),
      ConventionFits: place(rows.sizes + 4),
      Currency: place(rows.sizes + 5),
      CalibrationDensity: place(rows.instruments),
      DeviceUncertainty: place(rows.instruments + 1),
      GaugeUncertainty: place(rows.instruments + 2),
      RepeatUncertainty: place(rows.instruments + 3),
      ...listNames,
    },
  };
}

const form = { label: "B", value: "F", unit: "G" } as const;

function writeSizes(sheet: Sheet): void {
  writeHeading(sheet, rows.sizes - 1, ["B", "G"], "House");
  const fits = 'OR(TargetConvention="not used",TargetConvention="",TargetConvention=VolumeConvention)';
  writeFormLines(sheet, rows.sizes, form, [
    { label: "Internal volume V, as it will be when finished", typed: house.volume, format: decimals(1), unit: "m³" },
    { label: "Volume convention", typed: "room by room", align: "left" },
    { label: "Envelope area A_{E}", typed: house.envelopeArea, format: decimals(1), unit: "m²" },
    { label: "Floor area A_{F}", typed: house.floorArea, format: decimals(1), unit: "m²" },
    {
      label: "Convention against the one that the criterion means",
      formula: `IF(VolumeConvention="","",IF(${fits},"agrees","differs"))`,
    },
    { label: "Currency of the costs in the leak register", typed: currency, align: "left" },
  ]);
  sheet.put(
    `B${rows.sizes + 6}`,
    "The final result is divided by the volume of the finished house, so the open barrier is judged by it too. From drawings it is an estimate: measure it before the final test.",
    looks.note,
  );
  sheet.merge(`B${rows.sizes + 6}:G${rows.sizes + 6}`).height(26, rows.sizes + 6);
  sheet.keep(`F${rows.sizes + 5}`);
  sheet.validate(
    between(`F${rows.sizes}`, 10, 1e6, "Internal volume, m³", "Of the finished house, by the convention named below."),
    oneOf(
      `F${rows.sizes + 1}`,
      ["room by room", "whole internal"],
      "Volume convention",
      "Room by room: clear room volumes. Whole internal: partitions not deducted. The criterion says which one it means.",
    ),
    between(`F${rows.sizes + 2}:F${rows.sizes + 3}`, 1, 1e6, "Area, m²", "Needed where the limit is per area."),
    text(`F${rows.sizes + 5}`, "Currency", "As it is written: a sign or a few letters.", 5),
  );
}

function writeInstruments(sheet: Sheet): void {
  writeHeading(sheet, rows.instruments - 1, ["B", "G"], "Instruments and what they are worth");
  const at = rows.instruments;
  writeFormLines(sheet, at, form, [
    {
      label: "Density that the flow device was calibrated for, ρ_{cal}",
      typed: calibrationDensity,
      format: decimals(4),
      unit: "kg/m³",
    },
    {
      label: "Flow device, standard uncertainty of its calibration",
      typed: worth.device,
      format: "0.0 %",
      unit: "of the flow",
    },
    {
      label: "Pressure gauge, standard uncertainty of its gain",
      typed: worth.gauge,
      format: "0.0 %",
      unit: "of the pressure",
    },
    {
      label: "One retest, standard uncertainty of repeating it",
      typed: worth.repeat,
      format: "0.0 %",
      unit: "of the flow",
    },
  ]);
  sheet.put(
    `B${at + 5}`,
    "Half-width limits of a certificate, such as ±3.5 %, are divided by √3 for a standard uncertainty. The calibration is common to all tests with the same device: it cancels in the ratio of two tests, " +
      "so that small gains can be proved with a device that is 2 % off. Repeating the same test within a day: 1 to 2 % in published comparisons; calm days are better.",
    looks.note,
  );
  sheet.merge(`B${at + 5}:G${at + 7}`);
  sheet.validate(
    between(`F${at}`, 0.8, 1.5, "Density, kg/m³", "From the certificate; 1.2041 is dry air at 20 °C and 101 325 Pa."),
    between(`F${at + 1}:F${at + 3}`, 0.0001, 0.2, "Standard uncertainty", "As a percentage: 2 % for 0.02."),
  );
}

function writeListTables(sheet: Sheet): Record<string, string> {
  writeHeading(sheet, rows.lists, ["B", "G"], "Lists of the leak register");
  const names: Record<string, string> = {};
  for (const [name, column, head, entries] of lists) {
    writeColumnHeads(sheet, rows.lists + 1, column, [`<${head}`]);
    for (let row = listRows.first; row <= listRows.last; row++)
      sheet.type(`${column}${row}`, entries[row - listRows.first] ?? null, undefined, "left");
    const range = `${column}${listRows.first}:${column}${listRows.last}`;
    sheet.keep(range);
    sheet.validate(text(range, "List", "One entry a cell, no gaps; the register’s lists follow.", 30));
    names[name] = onSheet(sheets.basis, range);
  }
  return names;
}

/** Dry air at 20 °C and 101 325 Pa, kg/m³, as the standard's reference conditions have it. */
const referenceDensity = 1.2041;

/**
 * A formula for the factor from the flow that the gauge shows while depressurizing, at calibration density, to the flow through the envelope at
 * reference conditions: √(ρ_cal/ρ_i)·ρ_i/ρ_e·(ρ_e/ρ_0)^(1−n). Blank while a density is.
 */
export function gaugeFactor(indoors: string, outdoors: string, exponent: string): string {
  const atDevice = `SQRT(CalibrationDensity/${indoors})`;
  const throughEnvelope = `${indoors}/${outdoors}`;
  const atReference = `(${outdoors}/${referenceDensity})^(1-${exponent})`;
  return `IF(COUNT(${indoors},${outdoors},${exponent},CalibrationDensity)<4,"",${atDevice}*${throughEnvelope}*${atReference})`;
}
