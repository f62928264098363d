import { call, keepBlanks, writeSettings } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { fanDemandCell, fanDemandRows, fanDemandWords, writeFanDemandTable, writeFlowDeviceTable } from "../blocks/fan";
import { writeFormLines } from "../blocks/form";
import { letterhead, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, looks, palette, style } from "../blocks/style";
import { between, oneOf } from "../blocks/validation";
import { atHour, footer, sheets } from "./layout";
import { expected, house, openings } from "./scenario";

const rows = { typed: 6, device: 16, settings: 26 } as const;
const highestAt = rows.settings + 14;
const lowestAt = highestAt + fanDemandRows + 5;
const quantities = ["air change rate", "per envelope area", "per floor area", "leakage area per envelope area"];

/** What the device must give at the highest and at the lowest station, and with which opening. */
export function fanPage(): Page {
  const last = lowestAt + fanDemandRows + 2;
  const sheet = new Sheet(sheets.fan, [1.5, 44, 24, 12, 9, 9, 18, 27], palette.petrol, {
    orientation: "landscape",
    areas: [`B1:H${rows.settings + 10}`, `B${highestAt - 2}:H${last}`],
    titleRows: "1:4",
    pages: 2,
    footer,
  });
  const lead =
    "A house with the expected leakage, at the temperatures of the hour that is chosen: flow at the fan, opening, fan pressure.";
  writePageHead(sheet, letterhead, ["B", "H"], "Fan", lead);
  sheet.heightOf(13.5, 5, highestAt - 3).heightOf(13, highestAt - 2, last);
  writeTypedCells(sheet);
  const device = writeFlowDeviceTable(sheet, rows.device, openings, 5);
  const block = writeDemandSettings(sheet);
  for (const [at, name, pressure] of [
    [highestAt, "highest", "HighestPressure"],
    [lowestAt, "lowest", "LowestPressure"],
  ] as const) {
    sheet.formula(`B${at - 2}`, `"At the ${name} station"&IF(${pressure}="","",", "&${pressure}&" Pa")`, looks.heading);
    sheet.paint(`C${at - 2}:H${at - 2}`, looks.headingRule);
    const leakage = `$C$${rows.typed + 1}`;
    const given = [leakage, pressure, "IndoorTemperature", atHour("C")];
    const demand = call("FANDEMAND", leakage, pressure, block, device.range);
    writeFanDemandTable(sheet, at, `IF(COUNT(${given.join(",")})<${given.length},"",${demand})`);
    (["dep", "pres"] as const).forEach((direction, index) => {
      const row = at + fanDemandRows + index;
      sheet.formula(`B${row}`, fanDemandWords(at, direction), style({ bold: true })).merge(`B${row}:H${row}`);
    });
  }
  const cell = (place: string) => onSheet(sheets.fan, place);
  return {
    sheet,
    names: {
      ...device.names,
      ExpectedExponent: cell(`C${rows.typed + 7}`),
      HighestFlowDep: cell(fanDemandCell(highestAt, "q_ind_dep")),
      HighestFlowPres: cell(fanDemandCell(highestAt, "q_ind_pres")),
      HighestOpening: cell(fanDemandCell(highestAt, "opening_dep")),
      HighestOpeningPres: cell(fanDemandCell(highestAt, "opening_pres")),
      LowestOpening: cell(fanDemandCell(lowestAt, "opening_dep")),
      LowestOpeningPres: cell(fanDemandCell(lowestAt, "opening_pres")),
      WordsDep: cell(`B${highestAt + fanDemandRows}`),
      WordsPres: cell(`B${highestAt + fanDemandRows + 1}`),
    },
  };
}

function writeTypedCells(sheet: Sheet): void {
  const { typed: at } = rows;
  writeHeading(sheet, at - 1, ["B", "H"], "Leakage that is expected, and the house");
  writeFormLines(sheet, at, { label: "B", value: "C", unit: "D" }, [
    { label: "Quantity", typed: expected.quantity },
    { label: "Expected leakage", typed: expected.leakage, format: "0.0##" },
    { label: "Reference pressure", typed: expected.pressure, format: decimals(0), unit: "Pa" },
    { label: "Definition, for a leakage area only", typed: null, align: "left" },
    { label: "Volume", typed: house.volume, format: decimals(1), unit: "m³" },
    { label: "Envelope area", typed: house.envelopeArea, format: decimals(1), unit: "m²" },
    { label: "Floor area", typed: house.floorArea, format: decimals(1), unit: "m²" },
    {
      label: "Exponent n",
      typed: expected.exponent,
      format: decimals(2),
      unit: "0.65 until measured (ANSI/RESNET/ICC 380, M)",
    },
    {
      label: "Density that the certificate states its flows for",
      typed: expected.density,
      format: decimals(4),
      unit: "kg/m³",
    },
  ]);
  const unit = `IF(C${at}="air change rate","1/h",IF(C${at}="leakage area per envelope area","cm²/m²",IF(C${at}="","","m³/(h·m²)")))`;
  sheet.formula(`D${at + 1}`, unit, looks.unit);
  const definitions = ["effective 4 Pa", "ISO 9972 10 Pa", "equivalent 10 Pa"];
  sheet.validate(
    oneOf(`C${at}`, quantities, "Quantity", "Of the expected leakage; the unit follows."),
    between(
      `C${at + 1}`,
      0.01,
      1000,
      "Expected leakage",
      "Rather too much than too little: the limit, or the last test of the site.",
    ),
    between(`C${at + 2}`, 1, 100, "Reference pressure, Pa", "At which the figure holds; blank for a leakage area."),
    oneOf(`C${at + 3}`, definitions, "Definition", "Only for a leakage area: they differ by a factor of two."),
    between(
      `C${at + 4}:C${at + 6}`,
      1,
      1000000,
      "Size",
      "Of the tested house; only the one that the quantity needs is used.",
    ),
    between(`C${at + 7}`, 0.5, 1, "Exponent n", "0.5 to 1."),
    between(`C${at + 8}`, 0.9, 1.5, "Calibration density", "1.2041 kg/m³ is dry air at 20 °C and 101 325 Pa."),
  );
}

function writeDemandSettings(sheet: Sheet): string {
  writeHeading(sheet, rows.settings - 1, ["B", "H"], "Handed to the add-in");
  const at = (offset: number) => keepBlanks(`$C$${rows.typed + offset}`);
  return writeSettings(sheet, ["B", "C"], rows.settings, [
    ["quantity", at(0)],
    ["reference pressure", at(2), decimals(0)],
    ["leakage area definition", at(3)],
    ["volume", at(4), decimals(1)],
    ["envelope area", at(5), decimals(1)],
    ["floor area", at(6), decimals(1)],
    ["exponent", at(7), decimals(2)],
    ["indoor temperature", keepBlanks("IndoorTemperature"), decimals(1)],
    ["outdoor temperature", atHour("C"), decimals(1)],
    ["calibration density", at(8), decimals(4)],
    ["standard", keepBlanks("Standard")],
  ]);
}
