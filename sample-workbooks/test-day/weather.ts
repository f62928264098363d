import { onSheet } from "../blocks/address";
import { barChart } from "../blocks/chart";
import { formLines } from "../blocks/form";
import { letterhead, pageHead, section } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette, style } from "../blocks/style";
import { between, oneOf } from "../blocks/validation";
import { forecastTable } from "./forecast-table";
import { footer, hours, ofHours, sheets } from "./places";
import { air, house } from "./scenario";
import { ofStandard } from "./standards";

/** Rows of what is typed once for the house, in column D. */
const inputRows = {
  height: 6,
  indoors: 7,
  gauge: 8,
  neutral: 9,
  unit: 10,
  place: 11,
  ground: 12,
  felt: 13,
} as const;

const chartAt = hours.last + 5;

/** The forecast, hour by hour: stack and wind, the baseline to expect, and whether the standard's conditions hold. */
export function weatherPage(): Page {
  const last = chartAt + 17;
  const sheet = new Sheet(
    sheets.weather,
    [1.5, 18, 11, 14, 11, 11.5, 10, 10, 11, 11, 10, 11, 11, 11, 11, 11, 34],
    palette.copper,
    { orientation: "landscape", areas: [`B1:Q${last}`], pages: 1, footer },
  );
  const lead = "The evening before: what the weather does to the zero-flow pressure, and when a valid test is likely.";
  pageHead(sheet, letterhead, ["B", "Q"], "Weather", lead);
  sheet.heightOf(14.5, 5, last);
  inputs(sheet);
  limits(sheet);
  forecastTable(sheet);
  sheet.put(
    `B${hours.last + 1}`,
    "Stack: ρe·g·h·(Ti − Te)/Ti about the neutral height, in winter negative at the ground (ASHRAE Fundamentals 2021, ch. 16). Wind: ½·ρ·U² near the ground, in gusts where they are given; the gauge feels a share of it, " +
      "now with one sign, now with the other. Baseline to expect: stack at the gauge, less and more that share. An expectation: the reading on site decides.",
    looks.note,
  );
  sheet.merge(`B${hours.last + 1}:Q${hours.last + 2}`);
  chart(sheet);
  const cell = (row: number) => onSheet(sheets.weather, `D${row}`);
  return {
    sheet,
    names: {
      HouseHeight: cell(inputRows.height),
      IndoorTemperature: cell(inputRows.indoors),
      Hours: ofHours("B"),
      LimitHeight: onSheet(sheets.weather, "J6"),
      LimitWind: onSheet(sheets.weather, "J7"),
      WindIs: onSheet(sheets.weather, "J8"),
      LimitBeaufort: onSheet(sheets.weather, "J9"),
      LimitBaseline: onSheet(sheets.weather, "J10"),
    },
  };
}

function inputs(sheet: Sheet): void {
  section(sheet, 5, ["B", "F"], "House and gauge");
  formLines(sheet, inputRows.height, { label: "B", value: "D", unit: "E" }, [
    { label: "Height of the heated house", typed: house.height, format: decimals(1), unit: "m" },
    { label: "Indoor temperature", typed: house.indoors, format: decimals(1), unit: "°C" },
    { label: "Gauge’s outdoor tube above ground", typed: house.gaugeHeight, format: decimals(1), unit: "m" },
    { label: "Neutral height, blank: the middle", typed: null, format: decimals(1), unit: "m" },
    { label: "Unit of the forecast’s wind", typed: air.windUnit, align: "left" },
    { label: "Place of the forecast’s wind", typed: air.place, align: "left" },
    { label: "Wind near ground, share of station", typed: air.nearGround, format: decimals(2), unit: "practice" },
    { label: "Share of wind pressure at the gauge", typed: air.felt, format: decimals(2), unit: "practice" },
  ]);
  const row = (one: keyof typeof inputRows) => `D${inputRows[one]}`;
  sheet.validate(
    between(row("height"), 1, 300, "Height, m", "Between the lowest and the highest leak of the heated house."),
    between(row("indoors"), -20, 40, "Indoors, °C", "Expected during the test."),
    between(
      row("gauge"),
      0,
      300,
      "Gauge, m",
      "Height at which the outdoor end of the pressure tube lies; 0 is the ground.",
    ),
    between(
      row("neutral"),
      -100,
      400,
      "Neutral height, m",
      "Where inside and outside are equal; blank: half the height.",
    ),
    oneOf(row("unit"), ["m/s", "km/h", "mph", "kn"], "Unit", "Of wind and gusts in the forecast."),
    oneOf(
      row("place"),
      ["weather station", "near the ground"],
      "Place",
      "Forecasts are for a station, 10 m above open ground.",
    ),
    between(row("ground"), 0.1, 1, "Share near the ground", "About half among houses (common practice, no source)."),
    between(row("felt"), 0, 1, "Share felt", "Of the wind pressure near the ground (common practice, no source)."),
  );
}

/** What the standard chosen on the sheet Day asks of the weather. */
function limits(sheet: Sheet): void {
  section(sheet, 5, ["H", "Q"], "By the standard chosen on the sheet Day");
  const none = (limit: string) => `IF(Standard="","",IF(${limit}="","no limit",${limit}))`;
  const station = `AND($D$${inputRows.place}="weather station",${ofStandard("F")}<>"")`;
  const value = { label: "H", value: "J", unit: "K" };
  const wind = `IF(${station},${ofStandard("F")},${ofStandard("E")})`;
  formLines(sheet, 6, value, [
    { label: "Height × difference, at most", formula: none(ofStandard("D")), unit: "m·K", format: "General" },
    { label: "Wind, at most", formula: none(wind), unit: "m/s", format: "0.0#" },
    {
      label: "compared is the wind",
      formula: `IF(Standard="","",IF(${station},"at the station","near the ground"))`,
    },
    { label: "Beaufort, at most", formula: none(ofStandard("G")), format: "0" },
    { label: "Baseline means, either way", formula: none(ofStandard("H")), unit: "Pa", format: "General" },
  ]);
  sheet.formula("H11", 'IF(Standard="","no standard chosen",Standard)', native(undefined, "left")).merge("H11:J11");
  sheet.put(
    "L6",
    "Blank neutral height: half the height, as if the leaks were spread evenly; an open chimney or a leaky ceiling lifts it. " +
      "The wind’s shares are rules of thumb (common practice, no source): a courtyard, a dune or a corner changes them by a factor of two. The tube’s end in the lee, in a box or at several façades feels less.",
    style({ vertical: "center" }, looks.note),
  );
  sheet.merge("L6:Q10");
}

function chart(sheet: Sheet): void {
  section(sheet, chartAt - 1, ["B", "Q"], "Baseline to expect, Pa: from and to in each part of the day");
  const bars = [
    { name: "from", values: ofHours("O"), colour: palette.petrol },
    { name: "to", values: ofHours("P"), colour: palette.inputEdge },
  ];
  const anchor = { from: { row: chartAt - 1, col: 1 }, to: { row: chartAt + 17, col: 17 } };
  sheet.chart(
    barChart("upright", ofHours("B"), bars, anchor, {
      axisTitle: "baseline, Pa",
      alternative: "Bars of the lowest and the highest baseline to expect in each part of the day.",
      textSize: 9,
      format: "0.0",
      signed: true,
    }),
  );
}
