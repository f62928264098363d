import { call, quoted } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { writeFormLines } from "../blocks/form";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, fromAddIn, looks, native, palette, style } from "../blocks/style";
import { between, wholeBetween } from "../blocks/validation";
import type { Direction } from "../final-test/scenario";
import { atHour, footer, sheets } from "./layout";
import { expected } from "./scenario";
import { ofStandard } from "./standards";

const rows = { typed: 6, asked: 13, table: 25 } as const;
const most = 12;
const last = rows.table + most - 1;

/** The cell with what the gauge shows at a station, counted from 0; blank beyond the last one. */
export function gaugeCell(direction: Direction, station: number): string {
  return onSheet(sheets.pressures, `${direction === "depressurization" ? "D" : "F"}${rows.table + station}`);
}

/** The pressures to set, in both directions: induced, and what the gauge then shows. */
export function pressuresPage(): Page {
  const sheet = new Sheet(sheets.pressures, [1.5, 42, 12, 12, 12, 12, 13, 13], palette.copper, {
    orientation: "portrait",
    areas: [`B1:H${last + 4}`],
    pages: 1,
    footer,
  });
  const lead =
    "To be written on a card: what the gauge shows when the induced pressure is right. The baseline read on site takes the place of the expected one.";
  writePageHead(sheet, letterhead, ["B", "H"], "Pressures to set", lead);
  sheet.heightOf(16, 5, last + 4).height(26, 3, rows.table - 1);
  writeTypedCells(sheet);
  writeRange(sheet);
  writeStations(sheet);
  const cell = (place: string) => onSheet(sheets.pressures, place);
  return {
    sheet,
    names: {
      LowestPressure: cell(`C${rows.asked + 6}`),
      HighestPressure: cell(`C${rows.typed + 1}`),
      ExpectedBaseline: cell(`C${rows.asked}`),
      LargestBaseline: cell(`C${rows.asked + 1}`),
      LowestAsked: cell(`C${rows.asked + 5}`),
    },
  };
}

function writeTypedCells(sheet: Sheet): void {
  const { typed: at } = rows;
  writeHeading(sheet, at - 1, ["B", "H"], "Chosen");
  writeFormLines(sheet, at, { label: "B", value: "C", unit: "D" }, [
    { label: "Lowest induced pressure; blank: as asked below", typed: null, format: decimals(0), unit: "Pa" },
    { label: "Highest induced pressure", typed: expected.highest, format: decimals(0), unit: "Pa" },
    { label: "Number of stations", typed: expected.count, format: decimals(0), unit: "2 to 12" },
    { label: "Baseline read on site; blank: as expected", typed: null, format: decimals(1), unit: "Pa" },
  ]);
  sheet.validate(
    between(
      `C${at}`,
      1,
      100,
      "Lowest pressure, Pa",
      "As a magnitude. Blank: what the standard asks at the expected baseline.",
    ),
    between(`C${at + 1}`, 10, 200, "Highest pressure, Pa", "As a magnitude."),
    wholeBetween(`C${at + 2}`, 2, most, "Stations", "Ten leave room for readings that turn out bad."),
    between(
      `C${at + 3}`,
      -50,
      50,
      "Baseline, Pa",
      "Mean of the readings with the device covered, signed, indoors minus outdoors.",
    ),
  );
}

function writeRange(sheet: Sheet): void {
  const { asked: at, typed: given } = rows;
  writeHeading(sheet, at - 1, ["B", "H"], "Expected and asked for");
  const [own, read] = [`$C$${given}`, `$C$${given + 3}`];
  const [from, to] = [atHour("O"), atHour("P")];
  const largest = `IF(${read}="",IF(COUNT(${from},${to})<2,"",MAX(ABS(${from}),ABS(${to}))),ABS(${read}))`;
  const factor = `IF($C$${at + 3}="",0,$C$${at + 1}*$C$${at + 3})`;
  const lowest = `MAX(IF($C$${at + 2}="",0,$C$${at + 2}+0),${factor})`;
  const needed = `IF(COUNT($C$${at + 1})=0,"",IF(${lowest}=0,"",ROUNDUP(${lowest}-0.000000001,0)))`;
  writeFormLines(sheet, at, { label: "B", value: "C", unit: "D" }, [
    {
      label: "Baseline to reckon with, at the gauge",
      formula: `IF(${read}="",${atHour("L")},${read})`,
      format: decimals(1),
      unit: "Pa",
    },
    { label: "Its largest size, with the wind", formula: largest, format: decimals(1), unit: "Pa" },
    { label: "Standard: lowest pressure, at least", formula: ofStandard("I"), format: "General", unit: "Pa" },
    { label: "Standard: lowest, in baselines, at least", formula: ofStandard("J"), format: "0.0#", unit: "×" },
    { label: "Standard: highest pressure, at least", formula: ofStandard("K"), format: "General", unit: "Pa" },
    { label: "Lowest pressure asked for", formula: needed, format: decimals(0), unit: "Pa" },
    {
      label: "Lowest pressure of the list",
      formula: `IF(${own}="",$C$${at + 5},${own})`,
      format: decimals(0),
      unit: "Pa",
      look: style({ bold: true }, native(decimals(0))),
    },
    { label: "Standard: steps, at most, margin included", formula: ofStandard("M"), format: "General", unit: "Pa" },
  ]);
  const none = `AND(COUNT($C$${at + 6},$C$${given + 1})=2,$C$${at + 6}>=$C$${given + 1})`;
  sheet.formula(`D${at + 6}`, `IF(${none},"Pa: not below the highest, so no list","Pa")`, looks.unit);
  sheet.when(`D${at + 6}`, none, { font: { color: { rgb: palette.fail } } });
  sheet.put(
    `E${at}`,
    "The sign of a baseline is indoors minus outdoors: in winter, with the gauge near the ground, it is below zero. The largest size counts the wind as the sheet Weather expects it; a calm hour asks for less.",
    { ...looks.note, alignment: { ...looks.note.alignment, indent: 1 } },
  );
  sheet.merge(`E${at}:H${at + 4}`);
}

function writeStations(sheet: Sheet): void {
  const { table: first, asked: at, typed: given } = rows;
  writeHeading(sheet, first - 3, ["B", "H"], "Stations, from the highest to the lowest");
  sheet.put(`C${first - 2}`, "depressurization", looks.group).put(`E${first - 2}`, "pressurization", looks.group);
  writeColumnHeads(sheet, first - 1, "B", [
    "<station",
    "induced, Pa",
    "gauge shows, Pa",
    "induced, Pa",
    "gauge shows, Pa",
    "flow depr., m³/h",
    "flow pres., m³/h",
  ]);
  const arguments_ = [`$C$${at + 6}`, `$C$${given + 1}`, `$C$${given + 2}`] as const;
  // A baseline that asks for more than the highest pressure leaves nothing to set; the words beside the lowest pressure say so.
  const ready = `COUNT(${arguments_.join(",")},$C$${at})=4,$C$${at + 6}<$C$${given + 1}`;
  for (const [left, right, direction] of [
    ["C", "D", "depressurization"],
    ["E", "F", "pressurization"],
  ] as const) {
    const list = call("PRESSURESTATIONS", ...arguments_, quoted(direction), `$C$${at}`);
    const range = `${left}${first}:${right}${first + expected.count - 1}`;
    sheet.addIn(range, `IF(AND(${ready}),${list},"")`, fromAddIn(decimals(1)));
    sheet.paint(`${left}${first}:${right}${last}`, fromAddIn(decimals(1)));
  }
  for (let row = first; row <= last; row++) {
    sheet.formula(`B${row}`, `IF(C${row}="","",${row - first + 1})`, native(decimals(0), "left"));
    // The list of stations is the fan's flow at the highest pressure, carried down by the exponent.
    for (const [letter, induced, flow] of [
      ["G", "C", "HighestFlowDep"],
      ["H", "E", "HighestFlowPres"],
    ] as const) {
      const carried = `${flow}*(ABS(${induced}${row})/$C$${given + 1})^ExpectedExponent`;
      sheet.formula(
        `${letter}${row}`,
        `IF(COUNT(${induced}${row},${flow},ExpectedExponent)<3,"",${carried})`,
        native(decimals(0)),
      );
    }
  }
  sheet.put(
    `B${last + 1}`,
    "Flow: as the device indicates it, of a house with the expected leakage (sheet Fan). A station that shows less than half or more than twice of it is worth a second look at the opening, the tubes and the windows. " +
      "Equal steps are common practice, no source.",
    looks.note,
  );
  sheet.merge(`B${last + 1}:H${last + 3}`);
}
