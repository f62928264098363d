import { profiles, standards } from "../../src/core/index";
import { onSheet } from "../blocks/address";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, input, looks, native, palette, style } from "../blocks/style";
import { between, oneOf, text } from "../blocks/validation";
import { footer, sheets } from "./layout";

/** The scale as far as a tester needs it: speed at 10 m over open ground, m/s, and what one sees. */
const scale: readonly (readonly [from: number, name: string, seen: string])[] = [
  [0, "calm", "smoke rises straight up"],
  [0.3, "light air", "smoke drifts, vanes stand still"],
  [1.6, "light breeze", "wind felt on the face, leaves rustle"],
  [3.4, "gentle breeze", "leaves and twigs move all the time, light flags stretch"],
  [5.5, "moderate breeze", "dust and paper fly, small branches move"],
  [8, "fresh breeze", "small trees sway"],
  [10.8, "strong breeze", "large branches move, umbrellas are hard to hold"],
  [13.9, "near gale", "whole trees move, walking is hard"],
  [17.2, "gale", "twigs break off"],
];

const at = 38;
const first = at + 2;
const last = first + scale.length - 1;

/** Last row of the scale on the sheet Standards. */
const lastOfBeaufort = last;

/** What each standard asks of the day, and the Beaufort scale; the user's to change as editions change. */
export function standardsPage(): Page {
  const last = lastOfBeaufort + 1;
  const sheet = new Sheet(sheets.standards, [1.5, 28, 30, ...Array<number>(10).fill(10.5), 17], palette.copper, {
    orientation: "landscape",
    areas: [`B1:N${last}`],
    titleRows: "1:4",
    pages: 1,
    footer,
  });
  const lead =
    "What each standard asks of weather and pressures. Wind and height × ΔT are advice: beyond them a satisfactory baseline is unlikely. ASTM E779 forbids a test beyond its height × ΔT.";
  writePageHead(sheet, letterhead, ["B", "N"], "Standards", lead);
  sheet.heightOf(12.3, 5, last);
  writeHeading(sheet, 5, ["B", "N"], "Limits; blank: the standard has none");
  const heads = ["<standard", "<edition", ...columns.map(([, head]) => head), "<<directions"];
  writeColumnHeads(sheet, rows.first - 1, "B", heads);
  for (let row = rows.first; row <= rows.last; row++) {
    const name = standards[row - rows.first];
    const profile = name && profiles[name];
    sheet.type(`B${row}`, name ?? null, undefined, "left").type(`C${row}`, profile?.edition ?? null, undefined, "left");
    for (const [letter, , of] of columns)
      sheet.type(
        `${letter}${row}`,
        (profile && of(profile).value) ?? null,
        "EFJ".includes(letter) ? "0.0#" : "General",
      );
    sheet.put(`N${row}`, profile?.directions.value ?? null, style({ indent: 1 }, input(undefined, "left")));
  }
  marks(sheet);
  writeBeaufortTable(sheet);
  addRules(sheet);
  return { sheet, names: { Standards: standardNames } };
}

/** The scale with what one sees, so that a tester without a wind gauge can tell. */
function writeBeaufortTable(sheet: Sheet): void {
  writeHeading(sheet, at, ["B", "N"], "Beaufort scale (World Meteorological Organization, M)");
  writeColumnHeads(sheet, at + 1, "B", ["<Beaufort", "<name", "from, m/s"]);
  sheet.put(`E${at + 1}`, "what one sees", style({ indent: 1 }, looks.columnHeadLeft)).merge(`E${at + 1}:I${at + 1}`);
  scale.forEach(([from, name, seen], index) => {
    const row = first + index;
    sheet.put(`B${row}`, index, native(decimals(0), "left")).put(`C${row}`, name, looks.label);
    sheet
      .put(`D${row}`, from, native(decimals(1)))
      .put(`E${row}`, seen, style({ indent: 1, align: "left" }, looks.label))
      .merge(`E${row}:I${row}`);
  });
}

/** The Beaufort number of a speed at 10 m, m/s. */
export function beaufortOf(speed: string): string {
  return `MATCH(${speed},${onSheet(sheets.standards, `D${first}:D${last}`)},1)-1`;
}

/** Room for two standards more than the add-in knows. */
const rows = { first: 8, last: 20 } as const;
const marksAt = rows.last + 4;

type Profile = (typeof profiles)[keyof typeof profiles];

interface Stated {
  readonly value: number | undefined;
  readonly mark: string | undefined;
}

/** What a test day asks of a standard, read from the add-in's own profiles, so that sheet and add-in cannot differ. */
const columns: readonly (readonly [letter: string, head: string, of: (profile: Profile) => Stated])[] = [
  ["D", "height × ΔT|m·K, at most", ({ checks }) => upper(checks.height_dT)],
  ["E", "wind near|ground, m/s", ({ checks }) => upper(checks.wind)],
  ["F", "wind at|station, m/s", ({ stationWind }) => upper(stationWind)],
  ["G", "Beaufort|at most", ({ checks }) => upper(checks.beaufort)],
  ["H", "baseline|±, Pa", ({ checks }) => upper(checks["dp01+"])],
  ["I", "lowest Δp|Pa, at least", ({ checks }) => lower(checks.dp_min_about ?? checks.dp_min)],
  ["J", "in largest|baselines", ({ checks }) => times(checks.dp0_of_min ?? checks.reading_of_min)],
  ["K", "highest Δp|Pa, at least", ({ checks }) => lower(checks.dp_max)],
  ["L", "readings|at least", ({ checks }) => lower(checks.count)],
  ["M", "steps, Pa|at most", ({ checks }) => upper(checks.dp_step)],
];

type Limit = Profile["stationWind"];

const upper = (limit: Limit): Stated => ({
  value: limit?.upper,
  mark: limit?.upper === undefined ? undefined : limit.mark,
});
const lower = (limit: Limit): Stated => ({
  value: limit?.lower,
  mark: limit?.lower === undefined ? undefined : limit.mark,
});
/** A baseline of at most 20 % of the lowest pressure is a lowest pressure of at least 5 baselines. */
const times = (limit: Limit): Stated => ({ value: limit?.upper && 100 / limit.upper, mark: limit?.mark });

/** A property of the standard chosen on the sheet Day, by its column; blank where it has no such limit. */
export function ofStandard(letter: string): string {
  const column = (one: string) => onSheet(sheets.standards, `${one}${rows.first}:${one}${rows.last}`);
  const found = `INDEX(${column(letter)},MATCH(Standard,${column("B")},0))`;
  return `IF(Standard="","",IF(${found}="","",${found}))`;
}

/** The names of the standards, for lists. */
export const standardNames = onSheet(sheets.standards, `B${rows.first}:B${rows.last}`);

function marks(sheet: Sheet): void {
  writeHeading(
    sheet,
    marksAt - 2,
    ["B", "N"],
    "Where each limit comes from: C read in a published text, M from memory (check your own copy)",
  );
  writeColumnHeads(sheet, marksAt, "B", ["<standard", "<", ...columns.map(([, head]) => head), "<<directions"]);
  standards.forEach((name, index) => {
    const row = marksAt + 1 + index;
    const profile = profiles[name];
    sheet.put(`B${row}`, name, looks.label).put(`C${row}`, profile.edition, looks.label);
    const centred = style({ align: "right", size: 8, colour: palette.grey }, looks.label);
    for (const [letter, , of] of columns) sheet.put(`${letter}${row}`, of(profile).mark ?? null, centred);
    sheet.put(
      `N${row}`,
      profile.directions.mark,
      style({ indent: 1, align: "left", size: 8, colour: palette.grey }, looks.label),
    );
  });
}

function addRules(sheet: Sheet): void {
  const { first, last } = rows;
  sheet.keep(`B${first}:N${last}`);
  sheet.validate(
    text(`B${first}:C${last}`, "Standard", "Name and edition; the sheet Day finds the standard by its name.", 60),
    between(`D${first}:M${last}`, 0, 1000, "Limit", "As the standard has it; blank where it has none."),
    oneOf(
      `N${first}:N${last}`,
      ["both", "either", "depressurization"],
      "Directions",
      "Which directions the standard asks for.",
    ),
  );
}
