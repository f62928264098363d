import { onSheet } from "../blocks/address";
import { columnHeads, pageHead, section } from "../blocks/heading";
import { palette } from "../blocks/palette";
import { Sheet } from "../blocks/sheet";
import { dateFormat, decimals, input, looks, native, style } from "../blocks/style";
import { between, day, text } from "../blocks/validation";
import { footer, letterhead, sheets, type Page } from "./places";
import { calibrationDensity, instruments, openings } from "./scenario";

const gauges = { first: 7, last: 13 } as const;
const calibration = { heads: 16, first: 17, last: 22, density: 24, note: 26 } as const;

/** Where the openings of the flow device stand, for the sheets that look them up. */
export const openingTable = {
  name: onSheet(sheets.instruments, `B${calibration.first}:B${calibration.last}`),
  column: (letters: string) =>
    onSheet(sheets.instruments, `${letters}${calibration.first}:${letters}${calibration.last}`),
} as const;

/** Instruments that no test can do without; their names belong to the layout. */
const required = ["Envelope pressure gauge", "Fan pressure gauge", "Flow device"] as const;

const validity = (row: number) => onSheet(sheets.instruments, `I${row}`);
const validities = onSheet(sheets.instruments, `I${gauges.first}:I${gauges.last}`);

/** A formula that says "all valid", or what is the matter first. */
export const certificateWord = [
  `IF(COUNT(TestDate)=0,"no test day",`,
  ...required.map((name, index) => `IF(${validity(gauges.first + index)}="missing","${name.toLowerCase()} missing",`),
  `IF(COUNTIF(${validities},"date missing")>0,"date missing",IF(COUNTIF(${validities},"not valid")>0,"not all valid","all valid"))`,
  ")".repeat(required.length + 1),
].join("");

export function instrumentsPage(): Page {
  const sheet = new Sheet(sheets.instruments, [1.5, 25, 25, 12.5, 14.5, 11, 16, 16, 12], palette.petrol, {
    orientation: "landscape",
    areas: [`B1:I${calibration.note + 1}`],
    pages: 1,
    footer,
  });
  const lead = "Every instrument with its certificate. The test day is compared with the last valid day.";
  pageHead(sheet, letterhead, ["B", "I"], "Instruments", lead);
  sheet.heightOf(15, 5, calibration.note + 1);
  gaugeTable(sheet);
  flowDevice(sheet);
  return { sheet, names: { CalibrationDensity: onSheet(sheets.instruments, `D${calibration.density}`) } };
}

function gaugeTable(sheet: Sheet): void {
  const { first, last } = gauges;
  section(sheet, 5, ["B", "I"], "Instruments and certificates");
  const heads = [
    "<instrument",
    "<type",
    "<serial number",
    "<accuracy",
    "<certificate",
    "calibrated on",
    "valid until",
    "on the test day",
  ];
  columnHeads(sheet, 6, "B", heads);
  for (let row = first; row <= last; row++) {
    const [
      name = null,
      type = null,
      serial = null,
      accuracy = null,
      certificate = null,
      calibrated = null,
      until = null,
    ] = instruments[row - first] ?? [];
    for (const [letter, value] of Object.entries({ B: name, C: type, D: serial, E: accuracy, F: certificate })) {
      const fixed = letter === "B" ? required[row - first] : undefined;
      if (fixed) sheet.put(`B${row}`, fixed, looks.label);
      else sheet.type(`${letter}${row}`, value, undefined, "left");
    }
    sheet.type(`G${row}`, calibrated, dateFormat).type(`H${row}`, until, dateFormat);
    sheet.formula(
      `I${row}`,
      `IF(COUNTA(${row - first < required.length ? "C" : "B"}${row}:H${row})=0,"${row - first < required.length ? "missing" : ""}",IF(COUNT(G${row}:H${row},TestDate)<3,"date missing",IF(AND(G${row}<=TestDate,TestDate<=H${row}),"valid","not valid")))`,
      native(),
    );
  }
  sheet.when(`I${first}:I${last}`, `AND(I${first}<>"",I${first}<>"valid")`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
  sheet.validate(
    text(`B${first + required.length}:B${last}`, "Instrument", "A further instrument, with its certificate.", 60),
    text(`C${first}:F${last}`, "Instrument", "What it is, its serial number, accuracy and certificate.", 60),
    day(`G${first}:G${last}`, "Calibrated on", "Date of the certificate."),
    day(`H${first}:H${last}`, "Valid until", "Last day on which the certificate counts."),
  );
}

function flowDevice(sheet: Sheet): void {
  const { heads, first, last, density, note } = calibration;
  section(sheet, heads - 1, ["B", "I"], "Flow device, from its certificate: flow = c · (fan pressure)^{m}");
  const words = [
    "<opening",
    "<size",
    "c, m³/h at 1 Pa",
    "m",
    "from, Pa",
    "to, Pa",
    "lowest flow, m³/h",
    "highest, m³/h",
  ];
  columnHeads(sheet, heads, "B", words);
  for (let row = first; row <= last; row++) {
    const [name = null, what = null, c = null, m = null, from = null, to = null] = openings[row - first] ?? [];
    sheet.type(`B${row}`, name, undefined, "left").type(`C${row}`, what, undefined, "left");
    sheet.type(`D${row}`, c, decimals(2)).type(`E${row}`, m, decimals(3));
    sheet.type(`F${row}`, from, decimals(0)).type(`G${row}`, to, decimals(0));
    const flowAt = (pressure: string) => `IF(COUNT($D${row}:$G${row})<4,"",$D${row}*${pressure}${row}^$E${row})`;
    sheet.formula(`H${row}`, flowAt("F"), native(decimals(0))).formula(`I${row}`, flowAt("G"), native(decimals(0)));
  }
  sheet
    .put(`B${density}`, "Density of the air that the certificate states its flows for", looks.label)
    .paint(`C${density}:C${density}`, looks.label);
  sheet.put(`D${density}`, calibrationDensity, input(decimals(4))).put(`E${density}`, "kg/m³", looks.unit);
  sheet.put(
    `B${note}`,
    "A fan pressure outside the range of its opening gives an error in its row: nothing is extrapolated. When pressurizing, the fan pressure is read against the " +
      "device’s own inlet side, as its certificate says.",
    style({}, looks.note),
  );
  sheet.merge(`B${note}:I${note + 1}`);
  sheet.validate(
    text(`B${first}:B${last}`, "Opening", "Name of the opening, as it is chosen beside each reading.", 12),
    text(`C${first}:C${last}`, "Opening", "How it is recognized on the device.", 40),
    between(`D${first}:D${last}`, 0.001, 100000, "c, m³/h", "Flow coefficient of this opening from the certificate."),
    between(`E${first}:E${last}`, 0.3, 1, "m", "Exponent of this opening from the certificate, near 0.5."),
    between(`F${first}:G${last}`, 0, 2000, "Valid range, Pa", "Fan pressures between which the certificate holds."),
    between(
      `D${density}`,
      0.9,
      1.5,
      "Calibration density",
      "From the certificate, in kg/m³: 1.2041 is dry air at 20 °C and 101 325 Pa.",
    ),
  );
}
