import { call, keepBlanks } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { barChart } from "../blocks/chart";
import { writeFormLines } from "../blocks/form";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, style } from "../blocks/style";
import { between, oneOf, text } from "../blocks/validation";
import { footer, hours, ofHours, sheets } from "./layout";
import { air, forecast, house } from "./scenario";
import { beaufortOf, ofStandard } from "./standards";

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
  const last = chartAt + 12;
  const sheet = new Sheet(
    sheets.weather,
    [1.5, 27, 9, 11, 9.5, 10, 9, 11, 11, 9.5, 8.5, 9.5, 9.5, 9.5, 9.5, 9.5, 24],
    palette.copper,
    { orientation: "landscape", areas: [`B1:Q${last}`], pages: 1, titleRows: "1:4", footer },
  );
  const lead = "The evening before: what the weather does to the zero-flow pressure, and when a valid test is likely.";
  writePageHead(sheet, letterhead, ["B", "Q"], "Weather", lead);
  sheet.heightOf(12.7, 5, last).heightOf(22, hours.first, hours.last);
  writeInputs(sheet);
  writeLimits(sheet);
  writeForecastTable(sheet);
  sheet.put(
    `B${hours.last + 1}`,
    "Stack: ρe·g·h·(Ti − Te)/Ti about the neutral height, in winter negative at the ground (ASHRAE Fundamentals 2021, ch. 16). Wind: ½·ρ·U² near the ground, in gusts where they are given; the gauge feels a share of it, " +
      "now with one sign, now with the other. Baseline to expect: stack at the gauge, less and more that share. An expectation: the reading on site decides.",
    looks.note,
  );
  sheet.merge(`B${hours.last + 1}:Q${hours.last + 2}`);
  drawChart(sheet);
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

function writeInputs(sheet: Sheet): void {
  writeHeading(sheet, 5, ["B", "F"], "House and gauge");
  writeFormLines(sheet, inputRows.height, { label: "B", value: "D", unit: "E" }, [
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
function writeLimits(sheet: Sheet): void {
  writeHeading(sheet, 5, ["H", "Q"], "By the standard chosen on the sheet Day");
  const none = (limit: string) => `IF(Standard="","",IF(${limit}="","no limit",${limit}))`;
  const station = `AND($D$${inputRows.place}="weather station",${ofStandard("F")}<>"")`;
  const value = { label: "H", value: "J", unit: "K" };
  const wind = `IF(${station},${ofStandard("F")},${ofStandard("E")})`;
  writeFormLines(sheet, 6, value, [
    { label: "Height × ΔT, at most", formula: none(ofStandard("D")), unit: "m·K", format: "General" },
    { label: "Wind, at most", formula: none(wind), unit: "m/s", format: "0.0#" },
    {
      label: "Wind limit applies",
      formula: `IF(Standard="","",IF(${station},"at the station","near the ground"))`,
    },
    { label: "Beaufort, at most", formula: none(ofStandard("G")), format: "0" },
    { label: "Baseline, either sign", formula: none(ofStandard("H")), unit: "Pa", format: "General" },
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

function drawChart(sheet: Sheet): void {
  writeHeading(sheet, chartAt - 1, ["B", "Q"], "Baseline to expect, Pa: from and to in each part of the day");
  const bars = [
    { name: "from", values: ofHours("O"), colour: palette.petrol },
    { name: "to", values: ofHours("P"), colour: palette.inputEdge },
  ];
  const anchor = { from: { row: chartAt - 1, col: 1 }, to: { row: chartAt + 12, col: 17 } };
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

const { first, last } = hours;
const column = (letter: string) => `$${letter}$${first}:$${letter}$${last}`;
/** What is typed once, on the same sheet: see inputRows. */
const once = {
  height: "$D$6",
  indoors: "$D$7",
  gauge: "$D$8",
  neutral: "$D$9",
  unit: "$D$10",
  place: "$D$11",
  ground: "$D$12",
  felt: "$D$13",
};

/** A row for each part of the day; every column of the add-in is one call. */
function writeForecastTable(sheet: Sheet): void {
  writeHeading(sheet, first - 4, ["B", "Q"], "Forecast, and what follows");
  writeColumnHeads(sheet, first - 1, "B", [
    "<when",
    "outdoors|°C",
    "wind|as forecast",
    "gusts|as forecast",
    "height × ΔT|m·K",
    "wind|m/s",
    "gusts|m/s",
    "near ground|wind, m/s",
    "near ground|gusts, m/s",
    "^Beaufort",
    "stack at|gauge, Pa",
    "stack at|top, Pa",
    "wind|pressure, Pa",
    "baseline|from, Pa",
    "to|Pa",
    "<<a valid test is",
  ]);
  for (let row = first; row <= last; row++) writeHourRow(sheet, row);
  const speeds = call("CONVERTUNITS", keepBlanks(`$D$${first}:$E$${last}`), once.unit, '"m/s"');
  const none = `{${Array(last - first + 1)
    .fill('"",""')
    .join(";")}}`;
  sheet.addIn(`G${first}:H${last}`, `IF(${once.unit}="",${none},${speeds})`, fromAddIn(decimals(1)));
  const stack = (at: string) =>
    call("STACKPRESSURE", once.height, keepBlanks(once.indoors), keepBlanks(column("C")), at, keepBlanks(once.neutral));
  sheet.addIn(`L${first}:L${last}`, stack(keepBlanks(once.gauge)), fromAddIn(decimals(1)));
  sheet.addIn(`M${first}:M${last}`, stack(once.height), fromAddIn(decimals(1)));
  sheet.addIn(`N${first}:N${last}`, call("WINDPRESSURE", column("J")), fromAddIn(decimals(1)));
  sheet.when(`Q${first}:Q${last}`, `LEFT(Q${first},8)="doubtful"`, { font: { color: { rgb: palette.fail } } });
  sheet.when(`B${first}:Q${last}`, `AND($B${first}<>"",$B${first}=HourName)`, { font: { bold: true } });
  sheet.validate(
    text(`B${first}:B${last}`, "When", "A part of the day, by a name of your choice; each once.", 20),
    between(`C${first}:C${last}`, -40, 50, "Outdoors, °C", "Forecast of the air temperature."),
    between(
      `D${first}:E${last}`,
      0,
      200,
      "Wind",
      "As the forecast gives it, in the unit chosen above. Gusts may stay blank.",
    ),
  );
}

function writeHourRow(sheet: Sheet, row: number): void {
  const given = forecast[row - first];
  sheet.type(`B${row}`, given?.[0] ?? null, undefined, "left").type(`C${row}`, given?.[1] ?? null, decimals(1));
  sheet.type(`D${row}`, given?.[2] ?? null, "General").type(`E${row}`, given?.[3] ?? null, "General");
  const numbers = (cells: string, count: number, formula: string) => `IF(COUNT(${cells})<${count},"",${formula})`;
  const difference = `${once.height}*ABS(${once.indoors}-C${row})`;
  sheet.formula(`F${row}`, numbers(`${once.height},${once.indoors},C${row}`, 3, difference), native(decimals(0)));
  const atStation = `${once.place}="weather station"`;
  const near = (speed: string) =>
    numbers(speed, 1, `IF(${atStation},IF(COUNT(${once.ground})=0,"",${speed}*${once.ground}),${speed})`);
  sheet.formula(`I${row}`, near(`G${row}`), native(decimals(1)));
  // Without gusts the wind itself stands for them.
  sheet.formula(`J${row}`, `IF($E${row}="",I${row},${near(`H${row}`)})`, native(decimals(1)));
  const atTenMetres = `IF(${atStation},G${row},IF(COUNT(${once.ground})=0,G${row},G${row}/${once.ground}))`;
  sheet.formula(`K${row}`, numbers(`G${row}`, 1, beaufortOf(atTenMetres)), native("0", "center"));
  const felt = `${once.felt}*N${row}`;
  sheet.formula(`O${row}`, numbers(`L${row},N${row},${once.felt}`, 3, `L${row}-${felt}`), native(decimals(1)));
  sheet.formula(`P${row}`, numbers(`L${row},N${row},${once.felt}`, 3, `L${row}+${felt}`), native(decimals(1)));
  sheet.formula(`Q${row}`, outcome(row), style({ indent: 1, wrap: true }, native(undefined, "left")));
}

/** "possible", or "doubtful" with what speaks against it; open while a figure is missing that a limit needs. */
function outcome(row: number): string {
  const wind = `IF(WindIs="at the station",G${row},I${row})`;
  const beyond = (value: string, limit: string, word: string) =>
    `IF(ISNUMBER(${limit}),IF(${value}>${limit}*1.000000001," ${word},",""),"")`;
  const against = [
    beyond(`F${row}`, "LimitHeight", "height × ΔT"),
    beyond(wind, "LimitWind", "wind"),
    beyond(`K${row}`, "LimitBeaufort", "Beaufort"),
    beyond(`MAX(ABS(O${row}),ABS(P${row}))`, "LimitBaseline", "baseline"),
  ].join("&");
  const complete = `COUNT(F${row},G${row},I${row},K${row},O${row},P${row})=6`;
  const told = `IF(LEN(${against})=0,"possible","doubtful:"&LEFT(${against},LEN(${against})-1))`;
  return `IF(AND(B${row}="",COUNT(C${row}:E${row})=0),"",IF(OR(Standard="",ISERROR(LimitHeight),NOT(${complete})),"open",${told}))`;
}
