import { onSheet } from "../blocks/address";
import { writeFormLines } from "../blocks/form";
import { letterhead, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, looks, palette } from "../blocks/style";
import { between } from "../blocks/validation";
import { footer, sheets } from "./layout";
import { calibrationDensity, worth } from "./scenario";

const at = 6;

/** What the instruments are worth; the calibration is common to all runs. */
export function basisPage(): Page {
  const sheet = new Sheet(sheets.basis, [1.5, 58, 14, 22], palette.petrol, {
    orientation: "portrait",
    areas: [`B1:D${at + 10}`],
    pages: 1,
    footer,
  });
  writePageHead(
    sheet,
    letterhead,
    ["B", "D"],
    sheets.basis,
    "Shared by every run. Standard uncertainties, that is one standard deviation.",
  );
  sheet.heightOf(16, 5, at + 10);
  writeHeading(sheet, at - 1, ["B", "D"], "Flow device and gauges");
  writeFormLines(sheet, at, { label: "B", value: "C", unit: "D" }, [
    {
      label: "Density that the flow device was calibrated for, ρ_{cal}",
      typed: calibrationDensity,
      format: decimals(4),
      unit: "kg/m³",
    },
    {
      label: "Flow device: its calibration, common to all runs",
      typed: worth.device,
      format: "0.0 %",
      unit: "of the flow",
    },
    { label: "Pressure gauge: its gain", typed: worth.gauge, format: "0.0 %", unit: "of the pressure" },
    {
      label: "Setting up and running the same test once more",
      typed: worth.repeat,
      format: "0.0 %",
      unit: "of the flow",
    },
  ]);
  sheet.put(
    `B${at + 5}`,
    "Unguarded less guarded is a difference of two runs with the same device: its calibration is common to both and nearly cancels, so that the difference is worth far more than each of its two flows. " +
      "In the sum over the units it does not cancel at all: an error of the device is in every unit the same way. Half-width limits of a certificate, such as ±3.5 %, are divided by √3. " +
      "Repeating a test within a day: 1 to 2 % in published comparisons.",
    looks.note,
  );
  sheet.merge(`B${at + 5}:D${at + 9}`);
  sheet.validate(
    between(`C${at}`, 0.8, 1.5, "Density, kg/m³", "From the certificate; 1.2041 is dry air at 20 °C and 101 325 Pa."),
    between(`C${at + 1}:C${at + 3}`, 0.0001, 0.2, "Standard uncertainty", "As a percentage: 2 % for 0.02."),
  );
  const place = (row: number) => onSheet(sheets.basis, `C${row}`);
  return {
    sheet,
    names: {
      CalibrationDensity: place(at),
      DeviceUncertainty: place(at + 1),
      GaugeUncertainty: place(at + 2),
      RepeatUncertainty: place(at + 3),
    },
  };
}
