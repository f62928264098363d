import { onSheet } from "../blocks/address";
import { nameOpenings } from "../blocks/fan";
import { writeTypedTable } from "../blocks/form";
import { letterhead, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { dateFormat, decimals, input, looks, native, palette, style } from "../blocks/style";
import { between, day, text } from "../blocks/validation";
import { footer, sheets } from "./layout";
import type { Scenario } from "./scenario";

const facts = { first: 6, last: 9 } as const;
export const gauges = { heads: 12, first: 13, last: 19 } as const;

/** What is typed of the instruments: words, then days of their certificates. */
export const instrumentCells = {
  words: `C${gauges.first}:F${gauges.last}`,
  days: `G${gauges.first}:H${gauges.last}`,
} as const;

const calibration = { heads: 22, first: 23, last: 30, density: 32, note: 34 } as const;

/** Where the openings of the flow device stand, for the sheets that look them up. */
export const openingTable = {
  rows: calibration.last - calibration.first + 1,
  name: onSheet(sheets.firm, `B${calibration.first}:B${calibration.last}`),
  uncertainty: onSheet(sheets.firm, `H${calibration.first}:H${calibration.last}`),
  uncertaintyAt: (place: number) => onSheet(sheets.firm, `H${calibration.first + place - 1}`),
  column: (letters: string) => onSheet(sheets.firm, `${letters}${calibration.first}:${letters}${calibration.last}`),
} as const;

/** Instruments that no test can do without; their names belong to the layout. */
const required = ["Envelope pressure gauge", "Fan pressure gauge", "Flow device"] as const;

const cell = (letter: string, row: number) => onSheet(sheets.firm, `${letter}${row}`);
const bothGauges = onSheet(sheets.firm, `H${gauges.first}:H${gauges.first + 1}`);

/** The last valid day of what the checks of a standard ask for: of the two gauges the earlier one. */
export const validUntil = {
  gauge: `IF(COUNT(${bothGauges})=2,MIN(${bothGauges}),"")`,
  flowDevice: `IF(COUNT(${cell("H", gauges.first + 2)})=1,${cell("H", gauges.first + 2)},"")`,
} as const;

const states = onSheet(sheets.firm, `I${gauges.first}:I${gauges.last}`);
const furtherStates = onSheet(sheets.firm, `I${gauges.first + required.length}:I${gauges.last}`);

/**
 * What the checks of the standards do not look at: further instruments, and certificates dated after the test. A formula that says "in order" or what is the
 * matter first.
 */
export const certificateWord = [
  `IF(COUNT(TestDate)=0,"no test day"`,
  `IF(COUNTIF(${states},"dated after the test")>0,"dated after the test"`,
  `IF(COUNTIF(${furtherStates},"date missing")>0,"date missing"`,
  `IF(COUNTIF(${furtherStates},"run out")>0,"run out","in order"))))`,
].join(",");

export function firmPage(form: Scenario): Page {
  const sheet = new Sheet(sheets.firm, [1.5, 25, 22, 12.5, 14, 11.5, 15.5, 15.5, 13.5, 13.5], palette.petrol, {
    orientation: "landscape",
    areas: [`B1:J${calibration.note + 1}`],
    pages: 1,
    footer,
    workingPaper: true,
  });
  const lead =
    "What stays from job to job: the firm, its instruments and their certificates. A new form takes it over from here.";
  writePageHead(sheet, letterhead, ["B", "J"], "Firm and instruments", lead);
  sheet.heightOf(15, 5, calibration.note + 1);
  writeFirm(sheet, form);
  writeGaugeTable(sheet, form);
  writeFlowDevice(sheet, form);
  const there = (range: string) => onSheet(sheets.firm, range);
  return {
    sheet,
    names: {
      Firm: there(`C${facts.first}`),
      TradeLine: there(`C${facts.first + 1}`),
      FirmAddress: there(`C${facts.first + 2}`),
      FirmContact: there(`C${facts.last}`),
      Logo: there(`G${facts.first}`),
      FirmUnits: there(`D${calibration.density + 1}`),
      Instruments: there(`B${gauges.first}:H${gauges.last}`),
      Openings: there(`B${calibration.first}:G${calibration.last}`),
      ...nameOpenings((letter) => openingTable.column(letter), ["B", "D", "E", "F", "G"]),
      OpeningUncertainties: openingTable.uncertainty,
      CalibrationDensity: there(`D${calibration.density}`),
      GaugeUntil: bothGauges,
      FanUntil: cell("H", gauges.first + 2),
    },
  };
}

/** Name, trade, address and contact, and a cell that holds the firm's mark as a picture. */
function writeFirm(sheet: Sheet, { firm }: Scenario): void {
  writeHeading(sheet, facts.first - 1, ["B", "J"], "Firm");
  const lines = [
    ["Name", firm.name],
    ["Trade", firm.trade],
    ["Address", firm.address],
    ["Contact", firm.contact],
  ] as const;
  lines.forEach(([label, value], index) => {
    const row = facts.first + index;
    sheet.put(`B${row}`, label, looks.label).type(`C${row}`, value, undefined, "left").merge(`C${row}:E${row}`);
  });
  sheet.put(`F${facts.first}`, "Logo", style({ indent: 1 }, looks.label));
  sheet.put(`G${facts.first}`, null, input(undefined, "center")).merge(`G${facts.first}:J${facts.last}`);
  sheet.validate(
    text(`C${facts.first}:E${facts.last}`, "Firm", "Appears at the top of every sheet and in the report."),
    text(
      `G${facts.first}:J${facts.last}`,
      "Logo",
      "A picture placed in this cell appears on the cover. A few words will do, or leave it blank.",
    ),
  );
}

function writeGaugeTable(sheet: Sheet, { instruments }: Scenario): void {
  const { first, last } = gauges;
  writeHeading(sheet, gauges.heads - 1, ["B", "J"], "Instruments and certificates");
  const typed = (place: number) => (index: number) => instruments[index]?.[place];
  const words = (range: string) =>
    text(range, "Instrument", "What it is, its serial number, accuracy and certificate.", 60);
  writeTypedTable(sheet, {
    heads: gauges.heads,
    left: "B",
    rows: last - first + 1,
    columns: [
      {
        head: "<instrument",
        typed: typed(0),
        fixed: (index) => required[index],
        look: looks.label,
        rule: (range) => text(range, "Instrument", "A further instrument, with its certificate.", 60),
        ruleFrom: required.length,
      },
      { head: "<type", typed: typed(1), rule: words },
      { head: "<serial number", typed: typed(2), rule: words },
      { head: "<accuracy", typed: typed(3), rule: words },
      { head: "<certificate", typed: typed(4), rule: words },
      {
        head: "calibrated on",
        typed: typed(5),
        format: dateFormat,
        rule: (range) => day(range, "Calibrated on", "Date of the certificate."),
      },
      {
        head: "valid until",
        typed: typed(6),
        format: dateFormat,
        rule: (range) => day(range, "Valid until", "Last day on which the certificate counts."),
      },
      {
        head: "on the test day",
        formula: (row, index) => {
          const isRequired = index < required.length;
          const nothing = `COUNTA(${isRequired ? "C" : "B"}${row}:H${row})=0`;
          const dated = `IF(G${row}>TestDate,"dated after the test",IF(TestDate<=H${row},"valid","run out"))`;
          return `IF(${nothing},"${isRequired ? "missing" : ""}",IF(COUNT(G${row}:H${row},TestDate)<3,"date missing",${dated}))`;
        },
        look: native(),
      },
    ],
  });
  sheet.when(`I${first}:I${last}`, `AND(I${first}<>"",I${first}<>"valid",I${first}<>"missing")`, {
    font: { bold: true, color: { rgb: palette.fail } },
  });
  sheet.when(`I${first}:I${last}`, `I${first}="missing"`, { font: { bold: true, color: { rgb: palette.open } } });
}

function writeFlowDevice(sheet: Sheet, { openings, calibrationDensity, units }: Scenario): void {
  const { heads, first, last, density, note } = calibration;
  writeHeading(sheet, heads - 1, ["B", "J"], "Flow device, from its certificate: flow = c · (fan pressure)^{m}");
  const typed = (place: number) => (index: number) => openings[index]?.[place];
  const flowAt = (letter: string) => (row: number) =>
    `IF(COUNT($D${row}:$G${row})<4,"",$D${row}*${letter}${row}^$E${row})`;
  const range = (cells: string) =>
    between(cells, 0, 2000, "Valid range, Pa", "Fan pressures between which the certificate holds.");
  writeTypedTable(sheet, {
    heads,
    left: "B",
    rows: last - first + 1,
    columns: [
      {
        head: "<opening",
        typed: typed(0),
        rule: (cells) => text(cells, "Opening", "Name of the opening, as it is chosen beside each reading.", 12),
      },
      {
        head: "<size",
        typed: typed(1),
        rule: (cells) => text(cells, "Opening", "How it is recognized on the device.", 40),
      },
      {
        head: `c, ${units.flow} at 1 Pa`,
        typed: typed(2),
        format: decimals(units.system === "SI" ? 2 : 3),
        rule: (cells) =>
          between(cells, 0.001, 100000, `c, ${units.flow}`, "Flow coefficient of this opening from the certificate."),
      },
      {
        head: "m",
        typed: typed(3),
        format: decimals(3),
        rule: (cells) => between(cells, 0.3, 1, "m", "Exponent of this opening from the certificate, near 0.5."),
      },
      { head: "from, Pa", typed: typed(4), format: decimals(0), rule: range },
      { head: "to, Pa", typed: typed(5), format: decimals(0), rule: range },
      {
        head: "own uncertainty",
        typed: typed(6),
        format: "0.000##",
        rule: (cells) =>
          between(
            cells,
            0.0001,
            0.2,
            "Own uncertainty",
            "Standard uncertainty of this opening’s flow from the certificate, a fraction such as 0.008; half of one stated with k = 2. Blank: as on the sheet Uncertainty.",
          ),
      },
      { head: `lowest flow, ${units.flow}`, formula: flowAt("F"), look: native(decimals(0)) },
      { head: `highest, ${units.flow}`, formula: flowAt("G"), look: native(decimals(0)) },
    ],
  });
  const { digits } = units;
  sheet
    .put(`B${density}`, "Density of the air that the certificate states its flows for", looks.label)
    .paint(`C${density}:C${density}`, looks.label);
  sheet
    .put(`D${density}`, calibrationDensity, input(decimals(digits.density)))
    .put(`E${density}`, units.density, looks.unit);
  sheet
    .put(`B${density + 1}`, "Units of the flow device", looks.label)
    .paint(`C${density + 1}`, looks.label)
    .put(`D${density + 1}`, units.system, style({ align: "right" }, looks.label));
  sheet.put(
    `B${note}`,
    "A fan pressure outside the range of its opening gives an error in its row: nothing is extrapolated. When pressurizing, the fan pressure is read against the " +
      "device’s own inlet side, as its certificate says. The own uncertainty of an opening is standard, as a fraction of the flow; where it is blank, that on the sheet Uncertainty counts.",
    looks.note,
  );
  sheet.merge(`B${note}:J${note + 1}`).height(26, note);
  const inUnit = (value: number) => Number((value / units.in.density).toFixed(digits.density));
  sheet.validate(
    between(
      `D${density}`,
      inUnit(0.9),
      inUnit(1.5),
      "Calibration density",
      `From the certificate, in ${units.density}: ${inUnit(1.2041)} is dry air at 20 °C and 101 325 Pa.`,
    ),
  );
}
