import { call, keepBlanks } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { formLines } from "../blocks/form";
import { letterhead, pageHead, section } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, shortDay } from "../blocks/style";
import { airTemperatures, between, day } from "../blocks/validation";
import { gaugeFactor } from "./gauge-factor";
import { footer, sheets } from "./places";
import type { PointTestPlaces } from "./point-test";
import { series } from "./scenario";
import { seriesChart } from "./series-chart";
import { gainRows, gainsTable } from "./series-gains";
import { seriesRows, seriesTable } from "./series-steps";

const form = { label: "B", value: "E", unit: "F" } as const;

export interface SeriesPlaces {
  /** Flow at 50 Pa after the last step, and its standard uncertainty. */
  readonly lastFlow: string;
  readonly lastUncertainty: string;
  readonly firstFlow: string;
  /** Change of all steps together: flow, its limits and the word. */
  readonly change: string;
  readonly changeWord: string;
  readonly significantCount: string;
}

/** Tape, retest, tape, retest: which place leaked how much, and which gains are proved. */
export function seriesPage(first: PointTestPlaces): Page & { readonly places: SeriesPlaces } {
  const widths = [
    ...[1.5, 5.5, 45, 7, 14, 9, 9, 9, 9.5, 10, 10, 10, 10, 10, 8, 10.5, 3],
    ...[5.5, 42, 10, 10, 9, 9, 10, 9, 9, 9, 9, 9, 15, 9, 9, 3],
    ...Array<number>(8).fill(10),
  ];
  const sheet = new Sheet(sheets.series, widths, palette.copper, {
    orientation: "landscape",
    areas: [`B1:P${seriesRows.last + 5}`, `R1:AF${gainRows.total + 20}`],
    footer,
  });
  const lead =
    "Depressurization in one go: one place is taped, the flow is read again, and what was taped stays taped. Each step stands on top of the ones before.";
  pageHead(sheet, letterhead, ["B", "P"], sheets.series, lead);
  pageHead(
    sheet,
    letterhead,
    ["R", "AF"],
    `${sheets.series}: what each step won`,
    "A gain is significant where it stands clear of what reading the same thing twice would scatter; the device’s calibration is common to both and cancels in the ratio.",
  );
  sheet.heightOf(15, 5, gainRows.total + 20);
  conditions(sheet, first);
  seriesTable(sheet);
  const gains = gainsTable(sheet);
  seriesChart(sheet);
  const place = (reference: string) => onSheet(sheets.series, reference);
  return {
    sheet,
    names: {},
    places: {
      lastFlow: place(gains.lastFlow),
      lastUncertainty: place(gains.lastUncertainty),
      firstFlow: place(`J${seriesRows.first}`),
      change: place(gains.change),
      changeWord: place(gains.word),
      significantCount: place(gains.significant),
    },
  };
}

function conditions(sheet: Sheet, first: PointTestPlaces): void {
  section(sheet, 5, ["B", "G"], "Day and air");
  formLines(sheet, 6, form, [
    { label: "Day", typed: series.day, format: shortDay, align: "left" },
    { label: "Temperature indoors", typed: series.indoors, format: decimals(1), unit: "°C" },
    { label: "Temperature outdoors", typed: series.outdoors, format: decimals(1), unit: "°C" },
    { label: "Barometric pressure at the house", typed: series.barometer, format: decimals(0), unit: "Pa" },
  ]);
  section(sheet, 5, ["I", "P"], "Carried to 50 Pa at reference conditions");
  // A test with readings that gives no result is no reason to assume: its fault is to be seen here too.
  const measured = `COUNT(${first.n},${first.nUncertainty})=2`;
  const assumed = (value: string, own: string) =>
    `IF(${measured},${own},IF(${first.state}="something is missing",NA(),${value}))`;
  sheet.rich("I6", `n and its standard uncertainty, ${first.title}`, looks.label).paint("J6:M6", looks.label);
  sheet.formula("N6", assumed("0.65", first.n), native(decimals(3)));
  sheet.formula("O6", assumed("0.057", first.nUncertainty), native(decimals(3)));
  sheet.formula("P6", `IF(${measured},"measured","assumed")`, looks.unit);
  for (const [row, label, temperature] of [
    [7, "Density of the air indoors, ρ_{i}", "E7"],
    [8, "Density of the air outdoors, ρ_{e}", "E8"],
  ] as const) {
    sheet.rich(`I${row}`, label, looks.label).paint(`J${row}:N${row}`, looks.label).put(`P${row}`, "kg/m³", looks.unit);
    sheet.addIn(`O${row}`, call("AIRDENSITY", keepBlanks(temperature), keepBlanks("E9")), fromAddIn(decimals(4)));
  }
  sheet.put("I9", "Factor from the flow shown", looks.label).paint("J9:N9", looks.label).put("P9", null, looks.unit);
  sheet.formula("O9", gaugeFactor("O7", "O8", "N6"), native(decimals(4)));
  airTemperatures(sheet, { indoors: "E7", outdoors: "E8" });
  sheet.validate(
    day("E6", "Day", "The day of the series; one go, one day."),
    between("E9", 50000, 110000, "Barometric pressure, Pa", "At the house, in Pa: 1013.25 hPa is 101 325 Pa."),
  );
}
