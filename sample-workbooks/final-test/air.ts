import { call, keepBlanks, quoted } from "../blocks/add-in";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native } from "../blocks/style";
import type { Conditions, RunForm } from "./conditions";

/** Densities of both sides, and the factors that turn the indicated flow into that through the envelope. */
export function airSection(sheet: Sheet, { direction, units }: RunForm, places: Conditions): void {
  section(sheet, 5, ["K", "T"], "Air and density factors");
  columnHeads(sheet, 6, "R", ["value", "<<unit"]);
  sheet.paint("K6:T6", looks.columnHead);
  const leaving = direction === "depressurization";
  const density = (temperature: string, humidity: string) =>
    call(
      "AIRDENSITY",
      keepBlanks(temperature),
      keepBlanks(places.barometer),
      keepBlanks(humidity),
      quoted(units.system),
    );
  const factor = call(
    "DENSITYCORRECTION",
    quoted(direction),
    ...[
      places.indoorTemperature,
      places.outdoorTemperature,
      places.barometer,
      places.indoorHumidity,
      places.outdoorHumidity,
    ].map(keepBlanks),
    quoted(units.system),
  );
  const device = leaving ? 'IF(R7="","",R7)' : 'IF(R8="","",R8)';
  const lines: readonly (readonly [
    row: number,
    label: string,
    how: "add-in" | "native",
    formula: string,
    unit: string,
  ])[] = [
    [
      7,
      "Density of the air indoors, ρ_{i}",
      "add-in",
      density(places.indoorTemperature, places.indoorHumidity),
      units.density,
    ],
    [
      8,
      "Density of the air outdoors, ρ_{e}",
      "add-in",
      density(places.outdoorTemperature, places.outdoorHumidity),
      units.density,
    ],
    [9, `Density at the flow device: air from ${leaving ? "indoors" : "outdoors"}`, "native", device, units.density],
    [
      10,
      "Density that the certificate is for, ρ_{cal}",
      "native",
      "IF(COUNT(CalibrationDensity)=0,NA(),CalibrationDensity)",
      units.density,
    ],
    [11, "Factor √(ρ_{cal} / ρ at the device)", "native", 'IF(R9="","",SQRT(R10/R9))', ""],
    [12, `Factor to the envelope, ${leaving ? "ρ_{i} / ρ_{e}" : "ρ_{e} / ρ_{i}"}`, "add-in", factor, ""],
  ];
  for (const [row, label, how, formula, unit] of lines) {
    sheet.rich(`K${row}`, label, looks.label).paint(`L${row}:Q${row}`, looks.label);
    if (how === "add-in") sheet.addIn(`R${row}`, formula, fromAddIn(decimals(units.digits.density)));
    else sheet.formula(`R${row}`, formula, native(decimals(units.digits.density)));
    sheet.put(`S${row}`, unit, looks.unit).paint(`T${row}`, looks.label);
  }
}
