import { call, keepBlanks, quoted } from "../blocks/add-in";
import { formLines } from "../blocks/form";
import { columnHeads, section } from "../blocks/heading";
import { tableHeads, tableLook, wholeTestSymbols } from "../blocks/result-tables";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, style } from "../blocks/style";
import { bySymbol } from "./places";

/** Rows of a sheet that holds one multi-point test. */
export const pointRows = { conditions: 6, baseline: 14, readings: 19, results: 33 } as const;
export const readingRows = { first: pointRows.readings + 2, last: pointRows.readings + 11 } as const;

/** Rows of the whole-test table. */
export const wholeTestRows = { first: 7, last: 6 + wholeTestSymbols.length } as const;

/** Columns of label, value and unit. */
export const pointForm = { label: "B", value: "F", unit: "G" } as const;

/** The settings as label and value, and the whole test that reads them together with the raw readings. */
export function wholeTest(sheet: Sheet): void {
  section(sheet, 5, ["J", "K"], "Settings");
  columnHeads(sheet, 6, "J", ["<label", "<value"]);
  const at = pointRows.conditions;
  const kept = (cell: string) => `IF(${cell}="","",${cell})`;
  const settings: readonly (readonly [label: string, value: string, format?: string])[] = [
    ["volume", kept("InternalVolume"), decimals(1)],
    ["envelope area", kept("EnvelopeArea"), decimals(1)],
    ["floor area", kept("FloorArea"), decimals(1)],
    ["volume convention", kept("VolumeConvention")],
    ["indoor temperature", kept(`F${at + 1}`), decimals(1)],
    ["outdoor temperature", kept(`F${at + 2}`), decimals(1)],
    ["barometric pressure", kept(`F${at + 3}`), decimals(0)],
    ["flow basis", quoted("indicated at calibration density")],
    ["calibration density", kept("CalibrationDensity"), decimals(4)],
    ["standard", quoted("ISO 9972")],
    ["reference pressure", kept("TargetPressure"), decimals(0)],
  ];
  settings.forEach(([label, value, format], index) => {
    const row = wholeTestRows.first + index;
    sheet.put(`J${row}`, label, looks.label);
    sheet.formula(`K${row}`, value, style({ shrink: true }, native(format, "left")));
  });
  section(sheet, 5, ["M", "S"], "Every step of the test, a row each");
  columnHeads(sheet, 6, "M", tableHeads);
  const { first, last } = readingRows;
  const whole = call(
    "TESTRESULT",
    quoted("depressurization"),
    `D${first}:D${last}`,
    `E${first}:E${last}`,
    keepBlanks(`C${pointRows.baseline}:G${pointRows.baseline}`),
    keepBlanks(`C${pointRows.baseline + 1}:G${pointRows.baseline + 1}`),
    `$J$${wholeTestRows.first}:$K$${wholeTestRows.first + settings.length - 1}`,
    `C${first}:C${last}`,
  );
  sheet.addIn(
    `M${wholeTestRows.first}:S${wholeTestRows.last}`,
    `IF(COUNTA(D${first}:E${last})=0,"",${whole})`,
    (row, column) => tableLook(column, wholeTestSymbols[row] ?? ""),
  );
}

/** Results with a short budget of uncertainty. */
export function pointTestResults(sheet: Sheet): void {
  const at = pointRows.results;
  const range = (letter: string) => `$${letter}$${wholeTestRows.first}:$${letter}$${wholeTestRows.last}`;
  const value = bySymbol(range("N"), range("O"));
  const lower = bySymbol(range("N"), range("P"));
  const upper = bySymbol(range("N"), range("Q"));
  section(sheet, at - 1, ["B", "H"], "Results");
  const bold = (format: string) => style({ bold: true }, native(format));
  const fit = `IF(COUNT(${lower("q50")},${upper("q50")},${value("t")})<3,"",LN(${upper("q50")}/${lower("q50")})/2/${value("t")})`;
  const own = `F${at + 5}:F${at + 7}`;
  formLines(sheet, at, pointForm, [
    {
      label: "Flow through the envelope at 50 Pa, q_{50}",
      formula: value("q50"),
      look: bold(decimals(1)),
      unit: "m³/h",
    },
    {
      label: "Air change rate of the finished house, n_{50}",
      formula: value("n50"),
      look: bold(decimals(3)),
      unit: "1/h",
    },
    { label: "Flow exponent n", formula: value("n"), format: decimals(3) },
    { label: "Standard uncertainty of n", formula: value("s_n"), format: decimals(3) },
    { label: "Fit of the line, r²", formula: value("r2"), format: decimals(4), unit: "≥ 0.98" },
    { label: "Standard uncertainty of q_{50}: scatter of the readings", formula: fit, format: "0.0 %" },
    {
      label: "Calibration of the flow device",
      formula: 'IF(DeviceUncertainty="","",DeviceUncertainty)',
      format: "0.0 %",
    },
    {
      label: "Gain of the pressure gauge, n times",
      formula: `IF(COUNT(GaugeUncertainty,${value("n")})<2,"",GaugeUncertainty*${value("n")})`,
      format: "0.0 %",
    },
    {
      label: "Standard uncertainty of q_{50}, the three together",
      formula: `IF(COUNT(F${at},${own})<4,"",F${at}*SQRT(SUMSQ(${own})))`,
      look: bold(decimals(1)),
      unit: "m³/h",
    },
    {
      label: "State",
      formula: `IF(COUNTA(D${readingRows.first}:E${readingRows.last})=0,"no readings yet",IF(COUNT(F${at})=0,"something is missing",IF(COUNT(F${pointRows.conditions + 3})=0,"computed; 101 325 Pa assumed","computed")))`,
    },
    {
      label: "Degrees of freedom of that uncertainty: those of the scatter alone are few",
      formula: `IF(COUNT(F${at + 5},F${at + 8},${value("dof")})<3,"",IF(F${at + 5}=0,"",${value("dof")}*(F${at + 8}/F${at}/F${at + 5})^4))`,
      format: decimals(1),
    },
  ]);
  sheet.put(
    `B${at + 11}`,
    "A short budget: scatter, device and gauge. Baseline drift, temperatures and wind are left to the final test, whose budget holds them. Why a result is missing stands on the next page, in the first cell of the table.",
    looks.note,
  );
  sheet.merge(`B${at + 11}:H${at + 13}`);
}
