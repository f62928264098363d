import { onSheet } from "../blocks/address";
import { pageHead } from "../blocks/heading";
import { palette } from "../blocks/palette";
import { Sheet } from "../blocks/sheet";
import { conditionsSection, type Conditions } from "./conditions";
import { lineSections, type LinePlaces } from "./line";
import { footer, letterhead, sheets, type Page } from "./places";
import type { Direction, DirectionReadings } from "./readings";
import { columns, readingRows, readingsSection } from "./steps";
import { wholeTestSections, type WholeTestPlaces } from "./whole-test";

const leads: Readonly<Record<Direction, string>> = {
  depressurization:
    "Air is drawn out of the house. Pressures are indoors minus outdoors, so the readings are below zero; the baseline keeps its own sign.",
  pressurization:
    "Air is blown into the house. Pressures are indoors minus outdoors, so the readings are above zero; the baseline keeps its own sign.",
};

const widths = [
  ...[1.5, 4, 5.5, 8, 8, 8, 7.5, 7, 7, 7, 8, 8, 8, 8.5, 8, 8, 8, 7.5, 7.5, 7.5, 3],
  ...[37, 9, 12, 12, 12, 14.5, 28, 1.5, 5, 8.5, 8.5, 3],
  ...[18.5, 23.5, 1.5, 33, 8.5, 20, 8.5, 8.5, 10, 22],
];

const lastRow = 42;

/** Everything about one direction, in three pages beside each other: readings and steps, the leakage line, the whole test in one call. */
export function directionPage(direction: Direction, readings: DirectionReadings): Page & DirectionPlaces {
  const name = sheets[direction];
  const sheet = new Sheet(name, widths, direction === "depressurization" ? palette.petrol : palette.copper, {
    orientation: "landscape",
    areas: ["B1:T38", `V1:AF${lastRow}`, `AH1:AQ${lastRow}`],
    pages: 3,
    footer,
  });
  pageHead(sheet, letterhead, ["B", "T"], name, leads[direction]);
  pageHead(
    sheet,
    letterhead,
    ["V", "AF"],
    `${name}: the leakage line`,
    "The ordinary straight line through the logarithms, once more by native functions, and from it to the results, one step a row.",
  );
  pageHead(
    sheet,
    letterhead,
    ["AH", "AQ"],
    `${name}: the whole test in one call`,
    "From the pressure readings, the indicated flows (column L) and these settings, in one call.",
  );
  sheet.heightOf(12.25, 5, lastRow).freeze(3);
  const conditions = conditionsSection(sheet, direction, readings);
  readingsSection(sheet, direction, readings, conditions);
  const wholeTest = wholeTestSections(sheet, direction, conditions);
  const line = lineSections(sheet, direction, conditions, wholeTest);
  const openings = onSheet(name, columns.certificate);
  const reading = (index: number) => {
    const place = (letters: string) => onSheet(name, `${letters}${readingRows.first + index}`);
    return { induced: place("K"), flow: place("N"), use: place("C") };
  };
  const typed = onSheet(name, `D${readingRows.first}:D${readingRows.last}`);
  return { sheet, names: {}, direction, conditions, line, wholeTest, readings: typed, openings, reading };
}

/** Where other sheets find the results of one direction. */
export interface DirectionPlaces {
  readonly direction: Direction;
  readonly conditions: Conditions;
  readonly line: LinePlaces;
  readonly wholeTest: WholeTestPlaces;
  /** The pressure readings as typed. */
  readonly readings: string;
  /** c, m and range of the opening beside each reading. */
  readonly openings: string;
  /** Cells of one reading, counted from 0: induced pressure, flow through the envelope, use. */
  readonly reading: (index: number) => { readonly induced: string; readonly flow: string; readonly use: string };
}
