import { onSheet } from "../blocks/address";
import { formLines } from "../blocks/form";
import { columnHeads, letterhead, pageHead, section } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette, shortDay, style } from "../blocks/style";
import { wholeMean } from "../blocks/typed-cells";
import { airTemperatures, between, day, oneOf, text } from "../blocks/validation";
import { footer } from "./places";
import { pointForm, pointRows, pointTestResults, readingRows, wholeTest, wholeTestRows } from "./point-test-results";
import type { PointTest } from "./scenario";

/** Where other sheets find what one multi-point test gives. */
export interface PointTestPlaces {
  readonly title: string;
  readonly day: string;
  readonly q50: string;
  /** Standard uncertainty of q50, calibration included. */
  readonly uncertainty: string;
  /** Its effective degrees of freedom; blank where the readings do not scatter. */
  readonly freedom: string;
  readonly n: string;
  readonly nUncertainty: string;
  readonly n50: string;
  /** "no readings yet", "something is missing" or "computed". */
  readonly state: string;
}

/** One multi-point test on three pages: readings; results; the whole test in one call. */
export function pointTestPage(test: PointTest): Page & { readonly places: PointTestPlaces } {
  const widths = [1.5, 9, 9, 13, 13, 17, 13, 24, 3, 17, 25, 2, 37, 9, 25, 8.5, 8.5, 13, 27];
  const sheet = new Sheet(test.title, widths, palette.petrol, {
    orientation: "landscape",
    areas: [
      `B1:H${readingRows.last}`,
      `B${pointRows.results - 1}:H${pointRows.results + 14}`,
      `J1:S${wholeTestRows.last}`,
    ],
    titleRows: "1:3",
    footer,
  });
  const lead =
    "Depressurization while the barrier is open, so that every leak can still be reached. Pressures below zero.";
  pageHead(sheet, letterhead, ["B", "H"], test.title, lead);
  pageHead(
    sheet,
    letterhead,
    ["J", "S"],
    `${test.title}: the whole test in one call`,
    "From the pressures, the flows as shown and these settings. Uncertainties here hold the scatter of the readings.",
  );
  sheet.heightOf(14, 5, pointRows.results + 14);
  conditions(sheet, test);
  baselines(sheet, test);
  readingTable(sheet, test);
  wholeTest(sheet);
  const place = (row: number) => onSheet(test.title, `F${pointRows.results + row}`);
  pointTestResults(sheet);
  return {
    sheet,
    names: {},
    places: {
      title: test.title,
      day: onSheet(test.title, `F${pointRows.conditions}`),
      q50: place(0),
      n50: place(1),
      n: place(2),
      nUncertainty: place(3),
      uncertainty: place(8),
      freedom: place(10),
      state: place(9),
    },
  };
}

function conditions(sheet: Sheet, test: PointTest): void {
  section(sheet, pointRows.conditions - 1, ["B", "H"], "Day, house and air");
  formLines(sheet, pointRows.conditions, pointForm, [
    { label: "Day", typed: test.day, format: shortDay, align: "left" },
    { label: "Temperature indoors", typed: test.indoors, format: decimals(1), unit: "°C" },
    { label: "Temperature outdoors", typed: test.outdoors, format: decimals(1), unit: "°C" },
    { label: "Barometric pressure at the house", typed: test.barometer, format: decimals(0), unit: "Pa" },
    { label: "Wind near the ground", typed: test.wind, format: decimals(1), unit: "m/s" },
  ]);
  const state = pointRows.conditions + 5;
  sheet.put(`B${state}`, "State of the barrier", looks.label).paint(`C${state}:C${state}`, looks.label);
  sheet.type(`D${state}`, test.state, undefined, "left").merge(`D${state}:H${state}`);
  const at = pointRows.conditions;
  airTemperatures(sheet, { indoors: `F${at + 1}`, outdoors: `F${at + 2}` });
  sheet.validate(
    day(`F${at}`, "Day", "The day of the test."),
    between(`F${at + 3}`, 50000, 110000, "Barometric pressure, Pa", "At the house, in Pa: 1013.25 hPa is 101 325 Pa."),
    between(`F${at + 4}`, 0, 30, "Wind, m/s", "Wind speed near the ground; 0 is a value."),
    text(`D${state}:H${state}`, "State of the barrier", "What is closed, what is still open, what was repaired.", 90),
  );
}

function baselines(sheet: Sheet, test: PointTest): void {
  const at = pointRows.baseline;
  section(sheet, at - 1, ["B", "H"], "Baseline, fan off and covered, Pa");
  for (const [row, label, values] of [
    [at, "before", test.before],
    [at + 1, "after", test.after],
  ] as const) {
    sheet.put(`B${row}`, label, looks.label);
    [..."CDEFG"].forEach((letter, index) => {
      sheet.type(`${letter}${row}`, values[index] ?? null, decimals(1));
    });
    const used = `C${row}:G${row}`;
    sheet.formula(`H${row}`, wholeMean(used), native('"mean "0.00;"mean −"0.00'));
  }
  sheet.validate(
    between(`C${at}:G${at + 1}`, -30, 30, "Baseline, Pa", "Signed, indoors minus outdoors; 0 is a value."),
  );
}

/** Mean of the baselines before and after, each the mean of its readings; "" while there is none. */
const baseline = `IF(COUNT($H$${pointRows.baseline}:$H$${pointRows.baseline + 1})=0,"",AVERAGE($H$${pointRows.baseline}:$H$${pointRows.baseline + 1}))`;

function readingTable(sheet: Sheet, test: PointTest): void {
  const { first, last } = readingRows;
  section(sheet, pointRows.readings, ["B", "H"], "Readings");
  columnHeads(sheet, first - 1, "B", ["<no.", "^use", "pressure, Pa", "flow shown, m³/h", "induced, Pa"]);
  for (let row = first; row <= last; row++) {
    const reading = test.readings[row - first];
    sheet.put(`B${row}`, row - first + 1, style({ align: "left" }, looks.label));
    sheet.type(`C${row}`, reading ? "yes" : null, undefined, "center");
    sheet.type(`D${row}`, reading?.[0] ?? null, decimals(1)).type(`E${row}`, reading?.[1] ?? null, decimals(0));
    sheet.formula(`F${row}`, `IF(COUNT(D${row},${baseline})<2,"",D${row}-${baseline})`, native(decimals(2)));
  }
  sheet.validate(
    oneOf(`C${first}:C${last}`, ["yes", "no"], "Use", "no keeps a reading on the sheet without using it."),
    between(`D${first}:D${last}`, -100, -5, "Pressure, Pa", "As read while depressurizing, below zero."),
    between(`E${first}:E${last}`, 1, 100000, "Flow shown, m³/h", "As the gauge shows it, at calibration density."),
  );
}
