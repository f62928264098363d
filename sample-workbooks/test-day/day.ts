import { quoted } from "../blocks/add-in";
import { absolute, onSheet } from "../blocks/address";
import { firm, letterhead, trade, writeHeading, writePageHead } from "../blocks/heading";
import { requireAddIn } from "../blocks/needs-add-in";
import { writeLargeWord, writeLegend } from "../blocks/overview";
import { type Page, Sheet } from "../blocks/sheet";
import { dateFormat, input, looks, native, palette, style } from "../blocks/style";
import { countOf } from "../blocks/typed-cells";
import { day, fromList, oneOf, text } from "../blocks/validation";
import { checkCount, checkFormats, writeDayChecks } from "./day-checks";
import { atHour, footer, ofHours, sheets } from "./layout";
import { cautionsList, packingList, peopleList } from "./lists";
import { methods } from "./preparation";
import { job, remark } from "./scenario";
import { standardNames } from "./standards";

const rows = { facts: 6, choice: 11, panel: 15, checks: 21 } as const;
const wordsAt = rows.checks + checkCount + 3;
const listsAt = wordsAt + 8;
const legendAt = listsAt + 7;

/** One page to decide by: is the way worth it, what to set, what is still to be done. */
export function dayPage(): Page {
  const last = legendAt + 3;
  const sheet = new Sheet(sheets.day, [1.5, 32, 16.5, 12, 11.5, 12, 16, 17.5, 2, 40, 26, 10], palette.copper, {
    orientation: "portrait",
    areas: [`B1:H${last}`],
    pages: 1,
    footer,
  });
  writePageHead(sheet, letterhead, ["B", "H"], "Test day", "");
  sheet.heightOf(15, 5, last);
  writeFacts(sheet);
  writeChoice(sheet);
  const outcomes = writeDayChecks(sheet, rows.checks);
  writePanel(sheet, absolute(outcomes));
  writeSentences(sheet, wordsAt);
  writeListLines(sheet, listsAt);
  explainWorkbook(sheet);
  const summary = writeDaySummary(sheet, {
    panel: `B${rows.panel}`,
    first: rows.checks + 2,
    count: checkCount,
    lists: listsAt + 1,
  });
  const version = requireAddIn(sheet, {
    columns: ["B", "H"],
    lead: quoted("Before leaving the office: is a valid test likely, what is to be set, what is still to be done."),
    result: "HighestFlowDep",
    waiting: [`B${rows.panel}:H${legendAt - 1}`, summary],
  });
  const cell = (place: string) => onSheet(sheets.day, place);
  return {
    sheet,
    names: {
      ...version,
      Summary: cell(summary),
      House: cell(`C${rows.facts}`),
      Address: cell(`C${rows.facts + 1}`),
      Client: cell(`C${rows.facts + 2}`),
      Tester: cell(`C${rows.facts + 3}`),
      TestDate: cell(`G${rows.facts}`),
      Firm: cell(`G${rows.facts + 1}`),
      TradeLine: cell(`G${rows.facts + 2}`),
      Remark: cell(`G${rows.facts + 3}`),
      Standard: cell(`C${rows.choice}`),
      Method: cell(`C${rows.choice + 1}`),
      HourName: cell(`C${rows.choice + 2}`),
      HourIndex: cell(`E${rows.choice + 2}`),
      GaugeUntil: cell(`G${rows.choice}`),
      FanUntil: cell(`G${rows.choice + 1}`),
    },
  };
}

type Fact = readonly [label: string, value: string | number, format?: string];

function writeLabelled(
  sheet: Sheet,
  at: number,
  label: string,
  [value, end]: readonly [string, string],
  facts: readonly Fact[],
): void {
  facts.forEach(([words, given, format], index) => {
    const row = at + index;
    sheet.put(`${label}${row}`, words, style({ indent: label === "B" ? 0 : 1, align: "left" }, looks.label));
    if (label !== "B") sheet.merge(`${label}${row}:F${row}`);
    sheet.put(`${value}${row}`, given, input(format, "left", true)).merge(`${value}${row}:${end}${row}`);
  });
}

function writeFacts(sheet: Sheet): void {
  writeHeading(sheet, rows.facts - 1, ["B", "H"], "Job");
  writeLabelled(
    sheet,
    rows.facts,
    "B",
    ["C", "D"],
    [
      ["House", job.house],
      ["Address", job.address],
      ["Client", job.client],
      ["Tester", job.tester],
    ],
  );
  writeLabelled(
    sheet,
    rows.facts,
    "E",
    ["G", "H"],
    [
      ["Day of the test", job.day, dateFormat],
      ["Firm", firm],
      ["Trade", trade],
      ["Remark on every sheet", remark],
    ],
  );
  sheet.validate(
    text(`C${rows.facts}:D${rows.facts + 3}`, "Job", "The house stands at the top of every sheet."),
    day(`G${rows.facts}:H${rows.facts}`, "Day", "Of the test."),
    text(
      `G${rows.facts + 1}:H${rows.facts + 3}`,
      "Firm",
      "Firm, trade and remark stand on every sheet; an empty remark on none.",
      60,
    ),
  );
}

function writeChoice(sheet: Sheet): void {
  const at = rows.choice;
  writeLabelled(
    sheet,
    at,
    "B",
    ["C", "D"],
    [
      ["Standard", job.standard],
      ["Method of preparation", job.method],
      ["Hour, of the sheet Weather", job.hour],
    ],
  );
  writeLabelled(
    sheet,
    at,
    "E",
    ["G", "H"],
    [
      ["Gauge certificate until", job.gaugeUntil, dateFormat],
      ["Fan certificate until", job.deviceUntil, dateFormat],
    ],
  );
  const hour = `C${at + 2}`;
  const names = ofHours("B");
  const found = `IF(${countOf(names, hour)}=1,MATCH(${hour},${names},0),"")`;
  sheet.formula(
    `E${at + 2}`,
    `IF(${hour}="","",${found})`,
    style({ size: 8, colour: palette.grey }, native('"row "0', "left")),
  );
  const missing = `IF(OR(${hour}="",E${at + 2}<>""),"","no hour, or two, of this name")`;
  sheet.formula(`F${at + 2}`, missing, style({ colour: palette.fail }, looks.note)).merge(`F${at + 2}:H${at + 2}`);
  sheet.validate(
    fromList(`C${at}:D${at}`, standardNames, "Standard", "Its limits stand on the sheet Standards."),
    oneOf(
      `C${at + 1}:D${at + 1}`,
      methods.map(([name]) => name),
      "Method",
      "How openings are prepared, ISO 9972; the criterion says which.",
    ),
    fromList(`C${at + 2}:D${at + 2}`, names, "Hour", "A row of the sheet Weather, by its name."),
    day(`G${at}:H${at + 1}`, "Certificate", "Last day on which the certificate counts."),
  );
}

/** The answer in one word, and the reason beside it. */
function writePanel(sheet: Sheet, outcomes: string): void {
  const at = rows.panel;
  const count = (word: string) => `COUNTIF(${outcomes},"${word}")`;
  const word = `IF(${count("not met")}>0,"DOUBTFUL",IF(${count("open")}>0,"OPEN","LIKELY"))`;
  const colours = [
    ["LIKELY", palette.pass],
    ["DOUBTFUL", palette.fail],
  ] as const;
  writeLargeWord(sheet, `B${at}:C${at + 4}`, word, colours, { size: 26, shrink: true });
  const beside = { fill: palette.petrolPale, indent: 1, align: "left", wrap: true } as const;
  const house = `IF(HourName="","no hour chosen","a valid test by "&IF(Standard="","(no standard)",Standard)&", part of the day: "&HourName)`;
  sheet.formula(`D${at}`, house, style({ ...beside, size: 8, colour: palette.grey })).merge(`D${at}:H${at}`);
  const reasons = `IF(${count("not met")}>0,${count("not met")}&" of the checks below "&IF(${count("not met")}=1,"is","are")&" not met",IF(${count("open")}>0,${count("open")}&" of the checks below cannot be answered yet","every check below is met, or the standard has no limit for it"))`;
  sheet
    .formula(`D${at + 1}`, reasons, style({ ...beside, size: 11, bold: true, colour: palette.petrol }))
    .merge(`D${at + 1}:H${at + 2}`);
  const others = `IF(COUNTIF(${ofHours("Q")},"possible")=0,"no hour of the forecast meets all conditions of the weather",COUNTIF(${ofHours("Q")},"possible")&" of "&COUNTA(${ofHours("B")})&" parts of the day meet the conditions of the weather; first: "&INDEX(${ofHours("B")},MATCH("possible",${ofHours("Q")},0)))`;
  sheet
    .formula(`D${at + 3}`, `IF(COUNTA(${ofHours("B")})=0,"",${others})`, style({ ...beside, size: 9 }))
    .merge(`D${at + 3}:H${at + 4}`);
}

function explainWorkbook(sheet: Sheet): void {
  writeLegend(
    sheet,
    { at: legendAt, others: "F", right: "H", overTwo: true },
    "Likely means that no condition known beforehand speaks against it. Whether the test is valid is decided on site, by the baseline that is read and by the readings. The result is the tester’s responsibility under local codes.",
    2,
  );
}

/** What to expect and to set, in sentences; each stays away while its figures are not there. */
function writeSentences(sheet: Sheet, at: number): void {
  writeHeading(sheet, at, ["B", "H"], "What to expect and to set");
  const [from, to, stack, wind] = [atHour("O"), atHour("P"), atHour("L"), atHour("N")];
  const round = (value: string) => `SUBSTITUTE(ROUND(${value},1),"-","−")`;
  const opening = (name: string) => `IF(${name}="none","none of the device","“"&${name}&"”")`;
  const sentences = [
    [
      `COUNT(${from},${to})<2`,
      `"Baseline: "&${round(from)}&" to "&${round(to)}&" Pa; the stack makes "&${round(stack)}&" Pa at the gauge, the wind up to "&${round(wind)}&" Pa near the ground."`,
    ],
    [
      `COUNT(LowestPressure,HighestPressure,ExpectedBaseline)<3`,
      `IF(LowestPressure>=HighestPressure,"Pressures: the baseline to expect asks for "&LowestPressure&" Pa or more, the highest is "&HighestPressure&" Pa: nothing to set in this hour.","Pressures: induced from "&HighestPressure&" down to "&LowestPressure&" Pa; depressurizing the gauge shows "&${round("ExpectedBaseline-HighestPressure")}&" to "&${round("ExpectedBaseline-LowestPressure")}&" Pa, pressurizing "&${round("ExpectedBaseline+HighestPressure")}&" to "&${round("ExpectedBaseline+LowestPressure")}&" Pa.")`,
    ],
    [`WordsDep=""`, "WordsDep"],
    [`WordsPres=""`, "WordsPres"],
    [
      `OR(HighestOpening="",LowestOpening="",LowestPressure>=HighestPressure)`,
      `"At the lowest pressure: "&${opening("LowestOpening")}&" depressurizing, "&${opening("LowestOpeningPres")}&" pressurizing"&IF(AND(LowestOpening=HighestOpening,LowestOpeningPres=HighestOpeningPres),"; no change of the opening on the way.","; the opening may have to be changed on the way.")`,
    ],
    [`Method=""`, `"Openings by "&Method&": "&PreparationAll&" on the list, "&PreparationOpen&" not yet prepared."`],
  ] as const;
  sentences.forEach(([missing, sentence], index) => {
    const row = at + 1 + index;
    const words = `IFERROR(IF(${missing},"",${sentence}),"")`;
    sheet.formula(`B${row}`, words, style({ wrap: true })).merge(`B${row}:H${row}`);
  });
}

const lists = [
  ["Openings to prepare", "PreparationOpen", "PreparationAll"],
  ["Things to pack", packingList.open, packingList.all],
  ["People to tell", peopleList.open, peopleList.all],
  ["Cautions to see to", cautionsList.open, cautionsList.all],
] as const;

/** How far the lists are. */
function writeListLines(sheet: Sheet, at: number): void {
  writeHeading(sheet, at, ["B", "H"], "Still open on the lists");
  lists.forEach(([label, open, all], index) => {
    const row = at + 1 + index;
    sheet.put(`B${row}`, label, looks.label);
    sheet.formula(`C${row}`, open, style({ bold: true }, native("0")));
    sheet.formula(`D${row}`, `"of "&(${all})`, looks.unit);
    sheet.formula(`E${row}`, `IF(C${row}=0,"all seen to","")`, looks.label).paint(`F${row}:H${row}`, looks.label);
    sheet.when(`C${row}`, `C${row}>0`, { font: { bold: true, color: { rgb: palette.copper } } });
  });
}

interface Places {
  readonly panel: string;
  readonly first: number;
  readonly count: number;
  readonly lists: number;
}

/** The same beside the page, label, value and unit, as the recalculation prints it. */
function writeDaySummary(sheet: Sheet, { panel, first, count, lists: listsAt }: Places): string {
  writeHeading(sheet, 5, ["J", "L"], "Summary (not printed)");
  sheet
    .put("J6", "A valid test is", looks.strong)
    .formula("K6", `LOWER(${panel})`, native())
    .put("L6", null, looks.unit);
  for (let index = 0; index < count; index++) {
    const [row, at] = [7 + index, first + index];
    sheet
      .formula(`J${row}`, `B${at}`, looks.label)
      .formula(`K${row}`, `IF(C${at}="","",C${at})`, native(checkFormats[index]));
    sheet.formula(`L${row}`, `IF(D${at}="",F${at},D${at}&", "&F${at})`, looks.unit);
  }
  lists.forEach(([label], index) => {
    const row = 7 + count + index;
    sheet.put(`J${row}`, `${label}, open`, looks.label);
    sheet.formula(`K${row}`, `C${listsAt + index}`, native("0")).formula(`L${row}`, `D${listsAt + index}`, looks.unit);
  });
  return `J6:L${6 + count + lists.length}`;
}
