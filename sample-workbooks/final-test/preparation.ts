import { windPlaces } from "../../src/core/index";
import { onSheet } from "../blocks/address";
import { writeTypedTable } from "../blocks/form";
import { letterhead, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { input, looks, palette } from "../blocks/style";
import { oneOf, text, wholeBetween } from "../blocks/validation";
import { footer, sheets } from "./layout";

/** How the invented house was prepared. */
const buildingFacts: readonly (readonly [label: string, value: string])[] = [
  ["Part of the building that was tested", "the whole house; the unheated bicycle shed is outside the envelope"],
  ["Built, and last changed", "2026, new"],
  ["Position of the flow device", "entrance door, north side, ground floor; frame sealed to the jambs"],
  ["Reference pressure outdoors", "hose to the lee side, well away from the wall, end sheltered"],
  ["Measuring place indoors", "foot of the stairs, away from the stream of the fan"],
  ["Heating: kind and state", "heat pump, no combustion in the house; off during the test"],
  ["Ventilation: kind and state", "balanced, with heat recovery; off, supply and extract sealed at the unit"],
  ["Air conditioning and exhaust hoods", "recirculating hood in the kitchen; off"],
  ["Weather in words", "overcast, light wind from the south-west, dry"],
];

const windPlace = "near the ground";
const beaufort = 2;

const preparedOpenings: readonly (readonly [opening: string, place: string, state: string, how: string])[] = [
  ["Windows, twenty-two of them", "all storeys", "closed", "locked"],
  ["Terrace door", "living room", "closed", "locked"],
  ["Door to the shed", "plant room", "closed", "locked; it is part of the envelope"],
  ["Hatch to the roof space", "landing", "closed", "latched"],
  ["Doors between rooms", "all storeys", "open", "wedged"],
  ["Supply and extract of the ventilation", "plant room", "sealed", "caps at the unit, taped"],
  ["Water traps, eleven of them", "kitchen, baths, plant room", "closed", "filled with water"],
  ["Waste pipe without trap yet", "shower room", "sealed", "plug"],
  ["Cable duct from the street", "plant room", "closed", "as built, with its rubber seal"],
  ["Letter box", "entrance door", "sealed", "behind the panel of the flow device"],
  ["Keyhole of the terrace door", "living room", "open", "left as in use"],
];

const deviations: readonly string[] = [
  "One reading of the second depressurization is left out; its reason stands beside it.",
  "Pressurization was run once: dusk and rising wind.",
];

const factsFirst = 6;
const weather = factsFirst + buildingFacts.length;
const table = { heads: weather + 4, rows: 18 } as const;
const deviationsAt = table.heads + table.rows + 2;
const deviationRows = 5;
const lastRow = deviationsAt + 1 + deviationRows;

/** What the report repeats from this sheet. */
export const preparationPlaces = {
  facts: buildingFacts.map(([label], index) => [label, onSheet(sheets.preparation, `D${factsFirst + index}`)] as const),
  openings: Array.from({ length: table.rows }, (_, index) => {
    const cell = (letter: string) => onSheet(sheets.preparation, `${letter}${table.heads + 1 + index}`);
    return { opening: cell("B"), place: cell("D"), state: cell("E"), how: cell("F"), restored: cell("G") };
  }),
  sealingList: `B${table.heads + 1}:F${table.heads + table.rows}`,
  deviations: Array.from({ length: deviationRows }, (_, index) =>
    onSheet(sheets.preparation, `B${deviationsAt + 2 + index}`),
  ),
} as const;

/** The state of the building during the test: what the report by ISO 9972 must say, and the list of seals to be taken off again. */
export function preparationPage(): Page {
  const sheet = new Sheet(sheets.preparation, [1.5, 24, 12, 25, 11, 31, 11], palette.petrol, {
    orientation: "portrait",
    areas: [`B1:G${lastRow}`],
    pages: 1,
    footer,
    workingPaper: true,
  });
  const lead =
    "The state of the building during the test, each opening closed, sealed or left open, and what was restored afterwards.";
  writePageHead(sheet, letterhead, ["B", "G"], "Preparation and sealing list", lead);
  sheet.heightOf(15.5, 5, lastRow);
  writeHeading(sheet, factsFirst - 1, ["B", "G"], "Building, device, services, weather");
  const fact = (row: number, label: string, value: string | number | null) => {
    sheet.put(`B${row}`, label, looks.label).paint(`C${row}`, looks.label);
    sheet.put(`D${row}`, value, input(undefined, "left", true)).merge(`D${row}:G${row}`);
  };
  buildingFacts.forEach(([label, value], index) => fact(factsFirst + index, label, value));
  fact(weather, "Place where the wind is read", windPlace);
  fact(weather + 1, "Wind by the Beaufort scale", beaufort);
  sheet.validate(
    text(`D${factsFirst}:G${weather - 1}`, "Building and test", "One line for the report."),
    oneOf(`D${weather}:G${weather}`, windPlaces, "Wind", "The limit of the wind depends on where it is read."),
    wholeBetween(
      `D${weather + 1}:G${weather + 1}`,
      0,
      12,
      "Beaufort",
      "Seen, not measured: 2 moves leaves, 3 moves twigs and flags.",
    ),
  );
  writeOpeningsTable(sheet);
  writeHeading(sheet, deviationsAt, ["B", "G"], "Deviations from the standard, and what else the report should say");
  const reason = deviationsAt + 1;
  sheet.put(`B${reason}`, "Reason for staying below 50 Pa, if so", looks.label).paint(`C${reason}`, looks.label);
  sheet.put(`D${reason}`, null, input(undefined, "left", true)).merge(`D${reason}:G${reason}`);
  for (let index = 0; index < deviationRows; index++) {
    const row = reason + 1 + index;
    sheet.put(`B${row}`, deviations[index] ?? null, input(undefined, "left", true)).merge(`B${row}:G${row}`);
  }
  sheet.validate(
    text(
      `D${reason}:G${reason}`,
      "Reason",
      "ISO 9972 takes a highest pressure from 25 to 50 Pa only with a reason that the report states.",
    ),
    text(
      `B${reason + 1}:G${reason + deviationRows}`,
      "Deviations",
      "What was done otherwise than the standard says, and why.",
    ),
  );
  return {
    sheet,
    names: {
      WindPlace: onSheet(sheets.preparation, `D${weather}`),
      Beaufort: onSheet(sheets.preparation, `D${weather + 1}`),
      LowPressureReason: onSheet(sheets.preparation, `D${reason}`),
    },
  };
}

function writeOpeningsTable(sheet: Sheet): void {
  const first = table.heads + 1;
  writeHeading(sheet, table.heads - 1, ["B", "G"], "Openings: closed, sealed or left open");
  const line = (title: string, hint: string) => (range: string) => text(range, title, hint, 80);
  writeTypedTable(sheet, {
    heads: table.heads,
    left: "B",
    rows: table.rows,
    columns: [
      {
        head: "<opening",
        typed: (index) => preparedOpenings[index]?.[0],
        rule: line("Opening", "Every opening in the envelope, and the doors between rooms."),
      },
      { head: "", typed: () => null, align: "left" },
      { head: "<where", typed: (index) => preparedOpenings[index]?.[1], rule: line("Where", "Room or storey.") },
      {
        head: "<state",
        typed: (index) => preparedOpenings[index]?.[2],
        rule: (range) =>
          oneOf(
            range,
            ["closed", "sealed", "open"],
            "State",
            "Closed: shut as it is. Sealed: made tight by tape, plug or film. Open: left as in use.",
          ),
      },
      {
        head: "<how",
        typed: (index) => preparedOpenings[index]?.[3],
        rule: line("How", "Locked, taped, plugged, filled with water."),
      },
      {
        head: "<restored",
        align: "left",
        rule: (range) => text(range, "Restored", "Initials of the person who took the seal off again.", 20),
      },
    ],
  });
  for (let row = first; row < first + table.rows; row++) sheet.merge(`B${row}:C${row}`);
  sheet.validate(line("Opening", "Every opening in the envelope.")(`C${first}:C${first + table.rows - 1}`));
}
