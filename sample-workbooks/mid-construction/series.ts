import { call, keepBlanks } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { linearChart, lineSeries, pointSeries } from "../blocks/chart";
import { writeFormLines } from "../blocks/form";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, input, looks, native, palette, shortDay, style } from "../blocks/style";
import { between, day, oneOf, text, validateTemperatures, wholeBetween } from "../blocks/validation";
import { gaugeFactor } from "./basis";
import { footer, sheets } from "./layout";
import type { PointTestPlaces } from "./point-test";
import { series } from "./scenario";
import { lastNumber, stepRanges, type TapePlaces, writeTapeColumns, writeWonColumns } from "./temporary-tape";

/** Rows of the steps, the first of them the state as found; spare rows included. */
export const seriesRows = { first: 15, last: 28 } as const;

/** The same rows as the register reads them. */
export const steps = stepRanges({ start: seriesRows.first, end: seriesRows.last });

const kinds = ["start", "nothing changed", "lasting", "temporary", "tape off"] as const;

/** Tape, retest, tape, retest: which place leaked how much, and which gains are proved. */
export function seriesPage(first: PointTestPlaces): Page & { readonly places: SeriesPlaces } {
  const widths = [
    ...[1.5, 4, 43, 5, 12.5, 6.5, 6.5, 7.5, 6, 6, 6, 6, 6.5, 6, 5.5, 8, 3],
    ...[4, 37, 7, 7, 6.5, 6.5, 6.5, 6.5, 6, 6, 6, 6.5, 12.5, 7, 7, 3],
    ...Array<number>(7).fill(10),
    ...[3, 10, 10, 10, 10, 10, 60, 3, 12, 12],
  ];
  const sheet = new Sheet(sheets.series, widths, palette.copper, {
    orientation: "landscape",
    areas: [`B1:P${seriesRows.last + 5}`, `R1:AF${gainRows.total + 13}`],
    pages: 2,
    footer,
  });
  const lead =
    "Depressurization in one go: one place is taped, the flow is read again. Each step is made on top of the ones before; temporary tape does not count.";
  writePageHead(sheet, letterhead, ["B", "P"], sheets.series, lead);
  writePageHead(
    sheet,
    letterhead,
    ["R", "AF"],
    `${sheets.series}: what each step won`,
    "A gain is significant if it exceeds the scatter of reading the same thing twice; the device’s calibration is common to both readings and cancels in the ratio.",
  );
  sheet.heightOf(14.5, 5, end + 5);
  writeConditions(sheet, first);
  writeSeriesTable(sheet);
  const tape = writeTapeColumns(sheet, { start, end });
  writeWonColumns(sheet, { start, end }, (row) => row - start - 1 + gainRows.first);
  const gains = writeGainsTable(sheet, tape);
  writeTapeLine(sheet, tape);
  drawSeriesChart(sheet);
  const place = (reference: string) => onSheet(sheets.series, reference);
  return {
    sheet,
    names: {},
    places: {
      lastFlow: place(tape.lastFlow),
      lastUncertainty: place(tape.lastUncertainty),
      lastStep: place(tape.lastStep),
      tapeOn: place(tape.stillOn),
      withoutKind: place(tape.withoutKind),
      firstFlow: place(`J${seriesRows.first}`),
      change: place(gains.change),
      changeWord: place(gains.word),
      significantCount: place(gains.significant),
    },
  };
}

/** The readings of each step, carried to 50 Pa in one call. */
function writeSeriesTable(sheet: Sheet): void {
  const { first, last } = seriesRows;
  writeHeading(sheet, first - 3, ["B", "P"], "Readings, one row per step");
  writeColumnHeads(sheet, first - 1, "B", [
    "<step",
    "<what was done",
    "^leak|no.",
    "<kind",
    "pressure|Pa",
    "baseline|Pa",
    "flow shown|m³/h",
    "flow|m³/h",
    "q50|m³/h",
    "lower, n|m³/h",
    "upper, n|m³/h",
    "u from n|m³/h",
    "induced|Pa",
    "n used",
    "u|m³/h",
  ]);
  for (let row = first; row <= last; row++) {
    const [what, leak, kind, pressure, baseline, flow] = series.steps[row - first] ?? [];
    sheet.put(`B${row}`, row - first, style({ align: "left" }, looks.label));
    sheet.put(`C${row}`, what ?? null, style({ shrink: true }, input(undefined, "left")));
    sheet.type(`D${row}`, leak ?? null, decimals(0), "center").type(`E${row}`, kind ?? null, undefined, "left");
    sheet.type(`F${row}`, pressure ?? null, decimals(1)).type(`G${row}`, baseline ?? null, decimals(1));
    sheet.type(`H${row}`, flow ?? null, decimals(0));
    sheet.formula(
      `I${row}`,
      `IF(OR(ISTEXT(H${row}),F${row}>0),NA(),IF(COUNT(H${row},$O$9)<2,"",H${row}*$O$9))`,
      native(decimals(1)),
    );
    const whole = `SQRT(M${row}^2+J${row}^2*(RepeatUncertainty^2+DeviceUncertainty^2))`;
    const known = `COUNT(J${row},M${row},RepeatUncertainty,DeviceUncertainty)<4`;
    sheet.formula(`P${row}`, `IF(${known},"",${whole})`, native(decimals(1)));
  }
  const column = (letter: string) => `${letter}${first}:${letter}${last}`;
  const flow = call("ONEPOINTFLOW", column("I"), column("F"), "$N$6:$O$6", "50", keepBlanks(column("G")));
  const digits = [1, 1, 1, 1, 1, 3];
  sheet.addIn(`J${first}:O${last}`, flow, (_, at) => style({ bold: at === 0 }, fromAddIn(decimals(digits[at] ?? 1))));
  sheet.put(
    `B${last + 2}`,
    "Step 0 is the house as found. A step where nothing is changed shows how well the same thing reads twice: it should come out not significant. Taking a temporary tape off is a separate step, with the number of the same leak. " +
      "The limits beside q50 and “u from n” contain the exponent alone; the standard uncertainty u adds repeating the test and the device’s calibration, from the sheet House and instruments.",
    looks.note,
  );
  sheet.merge(`B${last + 2}:P${last + 4}`);
  sheet.validate(
    text(column("C"), "What was done", "The place that was taped or repaired before this reading.", 50),
    wholeBetween(column("D"), 1, 9999, "Leak", "Its number in the leak register; a temporary tape needs one."),
    oneOf(
      column("E"),
      kinds,
      "Kind",
      "Lasting repair, temporary tape, tape taken off again, or nothing changed. A reading without a kind, or under temporary tape, counts for nothing.",
    ),
    between(column("F"), -100, -5, "Pressure, Pa", "As read while depressurizing, below zero; near −50."),
    between(
      column("G"),
      -20,
      20,
      "Baseline, Pa",
      "Fan off and covered, just before; 0 is a value, and what a blank means.",
    ),
    between(column("H"), 1, 100000, "Flow shown, m³/h", "As the gauge shows it, at calibration density."),
  );
}

interface GainPlaces {
  readonly change: string;
  readonly word: string;
  readonly significant: string;
}

const { first: start, last: end } = seriesRows;

/** Rows of the gains: a step each, the state as found left out; then all together. */
const gainRows = { first: 8, last: 7 + end - start, total: 8 + end - start } as const;

const { first, last, total } = gainRows;

/** What each step won against the one before, with limits and significance in one call, and the hole that such a flow stands for. */
function writeGainsTable(sheet: Sheet, tape: TapePlaces): GainPlaces {
  writeHeading(sheet, first - 3, ["R", "AF"], "Gains, one row per step; uncertainties at 95 %");
  writeColumnHeads(sheet, first - 1, "R", [
    "<step",
    "<what was done",
    "q50 from|m³/h",
    "q50 to|m³/h",
    "u from|m³/h",
    "u to|m³/h",
    "won|m³/h",
    "u|m³/h",
    "lower|m³/h",
    "upper|m³/h",
    "% of|before",
    "% of|the first",
    "significance",
    "real hole|cm²",
    "as one|mm",
  ]);
  const plain = native(decimals(1));
  for (let row = first; row <= last; row++) {
    const step = row - first + start + 1;
    const known = (value: string) => `IF(J${step}="","",${value})`;
    const above = (letter: string) => known(lastNumber(`${letter}$${start}:${letter}${step - 1}`));
    sheet.formula(`R${row}`, known(`B${step}`), native(undefined, "left"));
    sheet.formula(`S${row}`, known(`C${step}&""`), style({ shrink: true }, looks.label));
    sheet.formula(`T${row}`, above("J"), plain).formula(`U${row}`, known(`J${step}`), plain);
    sheet.formula(`V${row}`, above("P"), plain).formula(`W${row}`, known(`P${step}`), plain);
    sheet.formula(`AE${row}`, holeArea(`T${row}`, `U${row}`), plain);
  }
  writeTotalGain(sheet, tape);
  const column = (letter: string, to = letter) => `${letter}${first}:${to}${total}`;
  const difference = call("LEAKAGEDIFFERENCE", column("T"), column("U"), column("V"), column("W"), "DeviceUncertainty");
  sheet.addIn(column("X", "AD"), difference, (row, at) => {
    const look = at === 6 ? fromAddIn(undefined, "center") : fromAddIn(decimals(1));
    return style({ bold: at === 0 || row === total - first, shrink: true }, look);
  });
  const holes = call("HOLEDIAMETER", column("AE"));
  sheet.addIn(column("AF"), holes, fromAddIn(decimals(0)));
  sheet.when(`R${first}:AF${total}`, `$AD${first}="not significant"`, { font: { color: { rgb: palette.grey } } });
  sheet.when(`AD${first}:AD${total}`, `$AD${first}="significant"`, {
    font: { bold: true, color: { rgb: palette.pass } },
  });
  sheet.formula(
    `S${total + 1}`,
    `"Changes that are significant: "&COUNTIF(AD${first}:AD${last},"significant")&" of "&COUNT(X${first}:X${last})`,
    looks.note,
  );
  return {
    change: `X${total}`,
    word: `AD${total}`,
    significant: `S${total + 1}`,
  };
}

/** The sharp opening that passes a gain at 50 Pa with C_d 0.6, cm²; blank where nothing was won. */
function holeArea(before: string, after: string): string {
  const area = `(${before}-${after})/3600/0.6*SQRT(1.2041/2/50)*10000`;
  return `IF(COUNT(${before},${after})<2,"",IF(${before}<=${after},"",${area}))`;
}

/** From the house as found to the last reading without temporary tape. */
function writeTotalGain(sheet: Sheet, tape: TapePlaces): void {
  const sum = style({ bold: true, top: palette.petrol, align: "right", format: decimals(1) });
  const counted = (range: string) => range.replace(String(start), String(start + 1));
  const whole = (cell: string, value: string) =>
    sheet.formula(cell, `IF(OR(COUNT(${counted(tape.flow)})=0,AR${start}=""),"",${value})`, sum);
  const words = `IF(${tape.tapesOn(end)}=0,"All steps together","Up to step "&${tape.lastStep}&", without temporary tape")`;
  sheet.put(`R${total}`, null, sum).formula(`S${total}`, words, style({ align: "left" }, sum));
  whole(`T${total}`, `AR${start}`);
  whole(`U${total}`, lastNumber(counted(tape.flow)));
  whole(`V${total}`, `AS${start}`);
  whole(`W${total}`, lastNumber(counted(tape.uncertainty)));
  sheet.formula(`AE${total}`, holeArea(`T${total}`, `U${total}`), sum);
}

/** Which tape is on, below the readings. */
function writeTapeLine(sheet: Sheet, { stillOn, lastStep, withoutKind }: TapePlaces): void {
  const on = `"Temporary tape on: "&${stillOn}&". Readings under it count for nothing; the flow now is that of step "&${lastStep}&"."`;
  const kind = `IF(${withoutKind}=0,""," Readings without a kind, which count for nothing: "&${withoutKind}&".")`;
  const cell = `B${end + 5}`;
  sheet.formula(
    cell,
    `IF(COUNT(H${start}:H${end})=0,"",IFERROR(IF(${stillOn}="","No temporary tape is on after the last step.",${on})&${kind},""))`,
    style({ wrap: true, vertical: "top" }, looks.text),
  );
  sheet.merge(`${cell}:P${end + 5}`).height(26, end + 5);
  sheet.when(`${cell}:P${end + 5}`, `OR(${stillOn}<>"",${withoutKind}>0)`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
}

/** Series of the workbook's charts that are points without a line. */
export const seriesMarkers = ["gain significant", "not significant, or as found", "under temporary tape"] as const;

/** The flow after each step, filled where the step is proved, against the flow that the limit allows. */
function drawSeriesChart(sheet: Sheet): void {
  writeChartPoints(sheet);
  const column = (letter: string) => onSheet(sheets.series, `${letter}${start}:${letter}${end}`);
  const at = (place: string) => onSheet(sheets.series, place);
  const series = [
    lineSeries("flow at 50 Pa", column("AH"), column("AI"), palette.petrolMid, 1.25),
    pointSeries(seriesMarkers[0], column("AH"), column("AJ"), "circle", palette.petrol, palette.petrol, 9),
    pointSeries(seriesMarkers[1], column("AH"), column("AK"), "x", palette.grey, palette.grey, 8),
    pointSeries(seriesMarkers[2], column("AH"), column("AL"), "diamond", palette.inputEdge, palette.copper, 9),
    lineSeries("limit", at(`AM${start}:AM${start + 1}`), at(`AN${start}:AN${start + 1}`), palette.copper, 2, "dash"),
  ];
  const top = gainRows.total + 2;
  const from = { row: top, col: 17 };
  const chart = linearChart(
    series,
    [],
    { from, to: { row: top + 11, col: 32 } },
    {
      // A step before the first keeps the first mark clear of the numbers at the axis; it bears no number of its own.
      x: { title: "step", min: -1, step: 1, gridlines: false, format: "0;;0" },
      y: { title: "flow at 50 Pa, m³/h", min: 0, gridlines: true },
      alternative:
        "The flow at 50 Pa after each step of tape and retest as points joined by a line, filled where the gain is significant, diamonds under temporary tape, and a dashed line for the flow that the limit allows.",
      textSize: 9,
    },
  );
  sheet.chart(chart);
}

/** Cells behind the chart, beside the printed pages; #N/A leaves a gap. */
function writeChartPoints(sheet: Sheet): void {
  writeHeading(sheet, start - 3, ["AH", "AN"], "Behind the chart (not printed)");
  writeColumnHeads(sheet, start - 1, "AH", ["step", "flow", "significant", "not", "taped", "step", "limit"]);
  for (let row = start; row <= end; row++) {
    const known = `ISNUMBER(J${row})`;
    sheet.formula(`AH${row}`, `IF(${known},B${row},NA())`, native(decimals(0)));
    sheet.formula(`AI${row}`, `IF(${known},J${row},NA())`, native(decimals(1)));
    const significant = row === start ? "FALSE" : `AD${row - start - 1 + gainRows.first}="significant"`;
    const shown = (condition: string) => `IF(AND(${known},${condition}),J${row},NA())`;
    sheet.formula(`AJ${row}`, shown(`AQ${row}=0,${significant}`), native(decimals(1)));
    sheet.formula(`AK${row}`, shown(`AQ${row}=0,NOT(${significant})`), native(decimals(1)));
    sheet.formula(`AL${row}`, shown(`AQ${row}>0`), native(decimals(1)));
  }
  sheet.formula(`AM${start}`, "0", native(decimals(0)));
  sheet.formula(`AM${start + 1}`, `MAX(1,COUNT(J${start}:J${end})-1)`, native(decimals(0)));
  for (const row of [start, start + 1])
    sheet.formula(`AN${row}`, "IF(COUNT(AllowedFlow)=0,NA(),AllowedFlow)", native(decimals(1)));
}

const form = { label: "B", value: "E", unit: "F" } as const;

export interface SeriesPlaces {
  /** Flow at 50 Pa after the last step without temporary tape, its standard uncertainty, and the step's number. */
  readonly lastFlow: string;
  readonly lastUncertainty: string;
  readonly lastStep: string;
  /** Temporary tapes that are still on; blank where there is none. */
  readonly tapeOn: string;
  /** Readings that count for nothing because their kind is not given. */
  readonly withoutKind: string;
  readonly firstFlow: string;
  /** Change of all steps together: flow, its limits and the word. */
  readonly change: string;
  readonly changeWord: string;
  readonly significantCount: string;
}

function writeConditions(sheet: Sheet, first: PointTestPlaces): void {
  writeHeading(sheet, 5, ["B", "G"], "Day and air");
  writeFormLines(sheet, 6, form, [
    { label: "Day", typed: series.day, format: shortDay, align: "left" },
    { label: "Temperature indoors", typed: series.indoors, format: decimals(1), unit: "°C" },
    { label: "Temperature outdoors", typed: series.outdoors, format: decimals(1), unit: "°C" },
    { label: "Barometric pressure on site", typed: series.barometer, format: decimals(0), unit: "Pa" },
  ]);
  writeHeading(sheet, 5, ["I", "P"], "Carried to 50 Pa at reference conditions");
  // A test with readings that gives no result is no reason to assume: its fault is to be seen here too.
  const measured = `COUNT(${first.n},${first.nUncertainty})=2`;
  const assumed = (value: string, own: string) =>
    `IF(${measured},${own},IF(${first.state}="something is missing",NA(),${value}))`;
  sheet.rich("I6", `n and u(n), ${first.title}`, looks.label).paint("J6:M6", looks.label);
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
  validateTemperatures(sheet, { indoors: "E7", outdoors: "E8" });
  sheet.validate(
    day("E6", "Day", "The day of the series; one go, one day."),
    between("E9", 50000, 110000, "Barometric pressure, Pa", "At the house, in Pa: 1013.25 hPa is 101 325 Pa."),
  );
}
