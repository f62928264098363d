import { call, keepBlanks, kept } from "../blocks/add-in";
import { columnHeads, section } from "../blocks/heading";
import type { Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, native, palette, style } from "../blocks/style";
import { between, text } from "../blocks/validation";
import { beaufortOf } from "./beaufort";
import { hours } from "./places";
import { forecast } from "./scenario";

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
export function forecastTable(sheet: Sheet): void {
  section(sheet, first - 4, ["B", "Q"], "Forecast, and what follows");
  columnHeads(sheet, first - 1, "B", [
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
  for (let row = first; row <= last; row++) hourRow(sheet, row);
  const speeds = call("CONVERTUNITS", keepBlanks(`$D$${first}:$E$${last}`), once.unit, '"m/s"');
  const none = `{${Array(last - first + 1)
    .fill('"",""')
    .join(";")}}`;
  sheet.addIn(`G${first}:H${last}`, `IF(${once.unit}="",${none},${speeds})`, fromAddIn(decimals(1)));
  const stack = (at: string) =>
    call("STACKPRESSURE", once.height, kept(once.indoors), keepBlanks(column("C")), at, kept(once.neutral));
  sheet.addIn(`L${first}:L${last}`, stack(kept(once.gauge)), fromAddIn(decimals(1)));
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

function hourRow(sheet: Sheet, row: number): void {
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
  sheet.formula(`Q${row}`, outcome(row), style({ indent: 1 }, native(undefined, "left")));
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
