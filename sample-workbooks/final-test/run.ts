import { onSheet } from "../blocks/address";
import { letterhead, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import type { Units } from "../blocks/units";
import { palette } from "../blocks/style";
import { type Conditions, type RunForm, writeAir, writeConditions } from "./conditions";
import { footer, readingRows, sheetOf } from "./layout";
import { columns, furtherFansLast, writeFurtherFans, writeReadings } from "./readings";
import type { Direction } from "./scenario";
import {
  type LinePlaces,
  type SettingsPlaces,
  wholeTestPlaces,
  type WholeTestPlaces,
  writeLine,
  writeRunSettings,
  writeWholeTest,
} from "./whole-test";

const leads: Readonly<Record<Direction, string>> = {
  depressurization:
    "Air is drawn out of the house. Pressures are indoors minus outdoors, so the readings are below zero; the baseline keeps its own sign.",
  pressurization:
    "Air is blown into the house. Pressures are indoors minus outdoors, so the readings are above zero; the baseline keeps its own sign.",
};

/** Letter is a little narrower than A4. */
const widthsFor = ({ system }: Units) => {
  const reasons = system === "SI" ? 25 : 19;
  return [
    ...[1.5, 4.5, 5.5, 8.5, 9, 8.5, 8, 8.8, 6.5, 7.5, 9, 9, 8.5, 9.5, 9, 9, 9, 8.5, 8, 8, reasons, 2],
    ...[29, 25, 1.5, 50, 10, 28, 8.5, 8.5, 15.5, 33],
  ];
};

/** The settings are longer than the tables beside them. */
const lastRow = 64;

/**
 * One run of one direction, in parts beside each other: readings and steps; then, for the screen only, the settings, the whole test in one call and the line. On
 * paper Results and Report have what they say.
 */
export function runPage(form: RunForm): Page & RunPlaces {
  const { direction, run } = form;
  const name = sheetOf(direction, run);
  const sheet = new Sheet(
    name,
    widthsFor(form.units),
    direction === "depressurization" ? palette.petrol : palette.copper,
    {
      orientation: "landscape",
      areas: [`B1:U${furtherFansLast}`],
      pages: 1,
      footer,
      workingPaper: true,
      ifFilled: `D${readingRows.first}:E${readingRows.last}`,
    },
  );
  const title = run === 1 ? name : `${name.replace(/ \d$/, "")}, second run`;
  const again = run === 1 ? "" : " Stays blank where no second run was made.";
  writePageHead(sheet, letterhead, ["B", "U"], title, leads[direction] + again);
  const lead =
    "From the pressure readings, the indicated flows (column L) and these settings, in one call. Not printed: Results and Report give the figures.";
  writePageHead(sheet, letterhead, ["W", "AE"], `${title}: the whole test`, lead);
  sheet
    .heightOf(form.units.system === "SI" ? 12.4 : 13, 5, lastRow)
    .height(6, 18, 36)
    .freeze(3);
  const conditions = writeConditions(sheet, form);
  writeAir(sheet, form, conditions);
  writeReadings(sheet, form, conditions);
  writeFurtherFans(sheet, form.units);
  const settings = writeRunSettings(sheet, form, conditions, flowOfOther(direction));
  if (settings.last > lastRow) throw new Error("the settings leave their page");
  writeWholeTest(sheet, form, conditions, settings);
  const line = writeLine(sheet, form);
  const there = (range: string) => onSheet(name, range);
  const column = (letters: string) => there(`${letters}${readingRows.first}:${letters}${readingRows.last}`);
  const reading = (index: number) => {
    const place = (letters: string) => there(`${letters}${readingRows.first + index}`);
    return { induced: place("K"), flow: place("N"), use: place("C"), typed: place("D"), reason: place("U") };
  };
  return {
    sheet,
    names: {},
    form,
    direction,
    run,
    conditions,
    settings,
    line,
    wholeTest: wholeTestPlaces(form),
    readings: column("D"),
    uses: column("C"),
    reasons: column("U"),
    openings: there(columns.certificate),
    reading,
  };
}

/** The mean flow at 50 Pa of the runs of the other direction; "" while there is none. */
function flowOfOther(direction: Direction): string {
  const other = direction === "depressurization" ? "pressurization" : "depressurization";
  const [one, two] = ([1, 2] as const).map(
    (run) => `IFERROR(${wholeTestPlaces({ direction: other, run }).value("q50")},"")`,
  ) as [string, string];
  return `IF(ISNUMBER(${one}),IF(ISNUMBER(${two}),(${one}+${two})/2,${one}),${two})`;
}

/** Where other sheets find the results of one run. */
export interface RunPlaces {
  readonly form: RunForm;
  readonly direction: Direction;
  readonly run: RunForm["run"];
  readonly conditions: Conditions;
  readonly settings: SettingsPlaces;
  readonly line: LinePlaces;
  readonly wholeTest: WholeTestPlaces;
  /** The pressure readings as typed, whether each takes part, and why not. */
  readonly readings: string;
  readonly uses: string;
  readonly reasons: string;
  /** c, m and range of the opening beside each reading. */
  readonly openings: string;
  /** Cells of one reading, counted from 0. */
  readonly reading: (index: number) => Readonly<Record<"induced" | "flow" | "use" | "typed" | "reason", string>>;
}

/** The runs of both directions, in the order of the tabs. */
export type Runs = readonly [RunPlaces, RunPlaces, RunPlaces, RunPlaces];
