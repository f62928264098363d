import { quoted } from "../blocks/add-in";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, input, looks, native, palette, shortDay, style } from "../blocks/style";
import { airTemperatures, between, day, fromList } from "../blocks/validation";
import { type RunPlaces, runResults } from "./run-results";
import { type Run, testedUnits } from "./scenario";

const readingCount = 8;

/** Rows that a block takes, the blank one after it included. */
export const blockHeight = 18;

/** One tested unit: conditions, readings of both runs, results of both. */
export function unitBlock(
  sheet: Sheet,
  at: number,
  index: number,
): { readonly name: string; readonly unguarded: RunPlaces; readonly guarded: RunPlaces } {
  const given = testedUnits[index];
  const readings = { first: at + 5, last: at + 4 + readingCount };
  section(sheet, at, ["B", "P"], `Tested unit ${index + 1}`);
  columnHeads(sheet, at + 1, "B", ["<unit", "<day", "indoors, °C", "outdoors, °C", "barometer, Pa"]);
  const facts = at + 2;
  sheet.put(`B${facts}`, given?.unit ?? null, style({ bold: true }, input(undefined, "left")));
  sheet.put(`C${facts}`, given?.day ?? null, input(shortDay, "left"));
  sheet.type(`D${facts}`, given?.indoors ?? null, decimals(1)).type(`E${facts}`, given?.outdoors ?? null, decimals(1));
  sheet.type(`F${facts}`, given?.barometer ?? null, decimals(0));
  columnHeads(sheet, at + 4, "B", [
    "<no.",
    "unguarded|pressure, Pa",
    "flow shown|m³/h",
    "guarded|pressure, Pa",
    "flow shown|m³/h",
  ]);
  typedRun(sheet, readings.first, ["C", "D"], given?.unguarded);
  typedRun(sheet, readings.first, ["E", "F"], given?.guarded);
  for (let row = readings.first; row <= readings.last; row++)
    sheet.put(`B${row}`, row - readings.first + 1, style({ align: "left" }, looks.label));
  sheet
    .put(`B${readings.last + 1}`, "baseline before", looks.label)
    .put(`B${readings.last + 2}`, "baseline after", looks.label);
  const settings = settingsOf(sheet, at);
  rules(sheet, at, readings);
  const run = (title: string, typed: readonly [string, string], left: "H" | "M", isFilled: boolean) => {
    sheet.put(`${left}${at + 1}`, title, looks.group);
    sheet.put(
      `${left}${at + 2}`,
      "q50, u(q50) in m³/h; n50 in 1/h; pressures in Pa",
      style({ size: 8, colour: palette.grey }),
    );
    return runResults(sheet, readings, typed, left, settings, `F${facts}`, isFilled);
  };
  return {
    name: `B${facts}`,
    unguarded: run("Unguarded", ["C", "D"], "H", given !== undefined),
    guarded: run("Guarded", ["E", "F"], "M", given?.guarded !== undefined),
  };
}

function typedRun(
  sheet: Sheet,
  first: number,
  [pressure, flow]: readonly [string, string],
  run: Run | undefined,
): void {
  for (let index = 0; index < readingCount; index++) {
    const [read, shows] = run?.readings[index] ?? [];
    sheet.type(`${pressure}${first + index}`, read ?? null, decimals(1));
    sheet.type(`${flow}${first + index}`, shows ?? null, decimals(0));
  }
  sheet.type(`${pressure}${first + readingCount}`, run?.before ?? null, decimals(1));
  sheet.type(`${pressure}${first + readingCount + 1}`, run?.after ?? null, decimals(1));
}

/** Label and value beside the printed page, as the whole test wants them. */
function settingsOf(sheet: Sheet, at: number): string {
  const facts = at + 2;
  const size = (range: string) => {
    const found = `INDEX(${range},MATCH($B$${facts},UnitNames,0))`;
    return `IF($B$${facts}="","",IFERROR(IF(${found}="","",${found}),""))`;
  };
  const kept = (cell: string) => `IF(${cell}="","",${cell})`;
  const lines: readonly (readonly [label: string, formula: string, format?: string])[] = [
    ["volume", size("UnitVolumes"), decimals(1)],
    ["envelope area", size("UnitEnvelopeAreas"), decimals(1)],
    ["floor area", size("UnitFloorAreas"), decimals(1)],
    ["indoor temperature", kept(`D${facts}`), decimals(1)],
    ["outdoor temperature", kept(`E${facts}`), decimals(1)],
    ["barometric pressure", kept(`F${facts}`), decimals(0)],
    ["flow basis", quoted("indicated at calibration density")],
    ["calibration density", kept("CalibrationDensity"), decimals(4)],
    ["standard", quoted("ISO 9972")],
  ];
  sheet.put(`R${at + 1}`, "Settings (not printed)", looks.group);
  lines.forEach(([label, formula, format], index) => {
    sheet.put(`R${facts + index}`, label, looks.label);
    sheet.formula(`S${facts + index}`, formula, style({ shrink: true }, native(format, "left")));
  });
  return `$R$${facts}:$S$${facts + lines.length - 1}`;
}

function rules(sheet: Sheet, at: number, { first, last }: { readonly first: number; readonly last: number }): void {
  airTemperatures(sheet, { indoors: `D${at + 2}`, outdoors: `E${at + 2}` });
  sheet.validate(
    fromList(`B${at + 2}`, "UnitNames", "Unit", "From the sheet Units; each unit once."),
    day(`C${at + 2}`, "Day", "The day of both runs."),
    between(
      `F${at + 2}`,
      50000,
      110000,
      "Barometric pressure, Pa",
      "At the building, in Pa: 1013.25 hPa is 101 325 Pa.",
    ),
    between(`C${first}:C${last}`, -100, -5, "Pressure, Pa", "As read while depressurizing, below zero."),
    between(`E${first}:E${last}`, -100, -5, "Pressure, Pa", "As read while depressurizing, below zero."),
    between(`D${first}:D${last}`, 1, 100000, "Flow shown, m³/h", "As the gauge shows it, at calibration density."),
    between(`F${first}:F${last}`, 1, 100000, "Flow shown, m³/h", "As the gauge shows it, at calibration density."),
    between(
      `C${last + 1}:C${last + 2}`,
      -30,
      30,
      "Baseline, Pa",
      "Mean over at least 30 s, fan off and covered; 0 is a value.",
    ),
    between(
      `E${last + 1}:E${last + 2}`,
      -30,
      30,
      "Baseline, Pa",
      "Mean over at least 30 s, guarding fans off too; 0 is a value.",
    ),
  );
}
