import { writeColumnHeads, writeHeading } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette, style } from "../blocks/style";
import { atHour } from "./layout";
import { ofStandard } from "./standards";

interface Check {
  readonly label: string;
  readonly value: string;
  readonly format?: string;
  readonly unit: string;
  /** Cell or formula of the limit: blank or words where there is none. */
  readonly limit: string;
  readonly sign: "≤" | "≥";
  readonly what: string;
}

const day = "TestDate";
const wind = `IF(WindIs="at the station",${atHour("G")},${atHour("I")})`;

/** What decides whether the way is worth it; the limits are the standard's, the reading on site decides. */
const checks: readonly Check[] = [
  {
    label: "Height × temperature difference",
    value: atHour("F"),
    format: decimals(0),
    unit: "m·K",
    limit: "LimitHeight",
    sign: "≤",
    what: "another hour, or cool the house before",
  },
  {
    label: "Wind",
    value: wind,
    format: decimals(1),
    unit: "m/s",
    limit: "LimitWind",
    sign: "≤",
    what: "another hour or day",
  },
  {
    label: "Beaufort",
    value: atHour("K"),
    format: decimals(0),
    unit: "",
    limit: "LimitBeaufort",
    sign: "≤",
    what: "another hour or day",
  },
  {
    label: "Largest baseline to expect",
    value: "LargestBaseline",
    format: decimals(1),
    unit: "Pa",
    limit: "LimitBaseline",
    sign: "≤",
    what: "tube’s end in the lee, several façades, a calm hour",
  },
  {
    label: "Lowest pressure of the list",
    value: "LowestPressure",
    format: decimals(0),
    unit: "Pa",
    limit: "LowestAsked",
    sign: "≥",
    what: "leave the lowest pressure blank on the sheet Pressures",
  },
  {
    label: "Highest pressure of the list",
    value: "HighestPressure",
    format: decimals(0),
    unit: "Pa",
    limit: `IF(COUNT(LowestPressure)=0,${ofStandard("K")},MAX(N(${ofStandard("K")}),LowestPressure+1))`,
    sign: "≥",
    what: "a higher pressure on the sheet Pressures, or a calmer hour",
  },
  {
    label: "Gauge certificate, days left",
    value: `IF(COUNT(GaugeUntil,${day})<2,"",GaugeUntil-${day})`,
    format: decimals(0),
    unit: "days",
    limit: "0",
    sign: "≥",
    what: "another gauge",
  },
  {
    label: "Fan certificate, days left",
    value: `IF(COUNT(FanUntil,${day})<2,"",FanUntil-${day})`,
    format: decimals(0),
    unit: "days",
    limit: "0",
    sign: "≥",
    what: "another fan",
  },
];

export const checkCount = checks.length + 1;

/** Number formats of what the checks expect, in their order; the last one names an opening. */
export const checkFormats: readonly (string | undefined)[] = checks.map(({ format }) => format);

/** A check a row, B to H: expected, limit, outcome, what to do. Gives the range of the outcomes. */
export function writeDayChecks(sheet: Sheet, at: number): string {
  writeHeading(sheet, at, ["B", "H"], "Is a valid test likely?");
  writeColumnHeads(sheet, at + 1, "B", ["<", "expected", "<<", "limit", "<<outcome", "<if not", "<"]);
  const first = at + 2;
  const cells = (row: number, { value, limit, sign, unit, format }: Omit<Check, "label" | "what">) => {
    sheet.formula(`C${row}`, `IF(ISNUMBER(${value}),${value},"")`, native(format));
    sheet.put(`D${row}`, unit || null, looks.unit);
    const number = `ISNUMBER(${limit})`;
    sheet.formula(
      `E${row}`,
      `IF(Standard="","",IF(ISERROR(${limit}),"unknown",IF(${number},"${sign} "&ROUND(${limit},1),"no limit")))`,
      native(),
    );
    const holds = sign === "≤" ? `C${row}<=${limit}*1.000000001` : `C${row}>=${limit}*0.999999999`;
    sheet.formula(
      `F${row}`,
      `IF(OR(Standard="",C${row}="",ISERROR(${limit})),"open",IF(${number},IF(${holds},"met","not met"),"no limit"))`,
      style({ bold: true, indent: 1 }, native(undefined, "left")),
    );
  };
  checks.forEach((check, index) => {
    const row = first + index;
    sheet.put(`B${row}`, check.label, looks.label);
    cells(row, check);
    writeAdvice(sheet, row, check.what);
  });
  const fan = first + checks.length;
  sheet.put(`B${fan}`, "Opening for the highest pressure", looks.label);
  sheet.formula(`C${fan}`, 'IFERROR(IF(HighestOpening="","",HighestOpening),"")', native());
  sheet.paint(`D${fan}:E${fan}`, looks.label);
  const both = 'AND(HighestOpening<>"none",HighestOpeningPres<>"none")';
  sheet.formula(
    `F${fan}`,
    `IF(C${fan}="","open",IF(${both},"met","not met"))`,
    style({ bold: true, indent: 1 }, native(undefined, "left")),
  );
  writeAdvice(sheet, fan, "a larger fan, or a lower highest pressure");
  const outcomes = `F${first}:F${fan}`;
  sheet.when(outcomes, `F${first}="not met"`, { font: { bold: true, color: { rgb: palette.fail } } });
  return outcomes;
}

function writeAdvice(sheet: Sheet, row: number, what: string): void {
  const words = `IF(F${row}="not met","${what}","")`;
  sheet.formula(`G${row}`, words, style({ size: 8, colour: palette.fail }, looks.label)).merge(`G${row}:H${row}`);
}
