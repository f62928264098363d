import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native } from "../blocks/style";
import type { DirectionPlaces } from "./direction";
import { validityColumn } from "./instruments";

/**
 * How many directions must give a result. A direction with readings counts even where one would be enough: readings that give an error must
 * not be passed over in silence. The row says for each direction whether it has readings.
 */
export function directionsNeeded(row: number): string {
  const either = `MAX(1,$D$${row}+$E$${row})`;
  return `IF(TargetDirections="either",${either},IF(TargetDirections="depressurization",1,2))`;
}

/** The words of one check. */
export function words(sheet: Sheet, row: number, label: string, limit: string, basis: string): void {
  sheet.put(`B${row}`, label, looks.label).put(`C${row}`, limit, looks.unit).put(`G${row}`, basis, looks.unit);
  for (const letter of ["D", "E"]) sheet.put(`${letter}${row}`, null, looks.label);
}

/** Conditions that are not a number for each direction; returns the last row. */
export function otherConditions(
  sheet: Sheet,
  from: number,
  [depressurization, pressurization]: readonly [DirectionPlaces, DirectionPlaces],
  needed: string,
): number {
  const [agreement, certificates, convention, spread, wind] = [from, from + 1, from + 2, from + 3, from + 4];
  words(sheet, agreement, "Step by step against the whole test", "agree", "cross-check");
  sheet
    .formula(`D${agreement}`, depressurization.line.agreement, native())
    .formula(`E${agreement}`, pressurization.line.agreement, native());
  const both = `D${agreement}:E${agreement}`;
  const agreed = `IF(COUNTIF(${both},"agree")<${needed},"open","met")`;
  sheet.formula(`F${agreement}`, `IF(COUNTIF(${both},"differ")>0,"not met",${agreed})`, native());

  words(sheet, certificates, "Certificates on the test day", "all valid", "ISO 9972 (M)");
  const lapsed = ["not valid", "date missing"].map((word) => `COUNTIF(${validityColumn},"${word}")`).join("+");
  sheet.formula(
    `D${certificates}`,
    `IF(COUNTIF(${validityColumn},"valid")=0,"none listed",IF(${lapsed}=0,"all valid","not all"))`,
    native(),
  );
  sheet.formula(`F${certificates}`, `IF(D${certificates}="all valid","met","not met")`, native());

  words(sheet, convention, "Volume convention, measured and asked for", "the same", "criterion");
  sheet.formula(`D${convention}`, "VolumeConvention", native()).formula(`E${convention}`, "TargetConvention", native());
  sheet.formula(
    `F${convention}`,
    `IF(OR(E${convention}="not used",D${convention}=E${convention}),"met","not met")`,
    native(),
  );

  words(sheet, spread, "Difference of the directions, % of the mean", "≤ 10", "practice, advisory");
  const [d, p] = [depressurization.wholeTest.value("q50"), pressurization.wholeTest.value("q50")];
  sheet.formula(`D${spread}`, `IFERROR(200*ABS(${d}-${p})/(${d}+${p}),"")`, native(decimals(1)));
  sheet.formula(
    `F${spread}`,
    `IF(COUNT(D${spread})=0,"look into it",IF(D${spread}<=10,"met","look into it"))`,
    native(),
  );

  words(sheet, wind, "Wind near the ground, m/s", "≤ 3", "ISO 9972 (C), advisory");
  sheet.formula(`D${wind}`, depressurization.conditions.wind, native(decimals(1)));
  sheet.formula(`E${wind}`, pressurization.conditions.wind, native(decimals(1)));
  const blown = `D${wind}:E${wind}`;
  sheet.formula(`F${wind}`, `IF(COUNT(${blown})<2,"look into it",IF(MAX(${blown})<=3,"met","look into it"))`, native());
  return wind;
}
