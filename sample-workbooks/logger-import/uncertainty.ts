import { call, keepBlanks, quoted, type Setting, writeSettings } from "../blocks/add-in";
import { onSheet } from "../blocks/address";
import { writeFormLines } from "../blocks/form";
import { letterhead, writeColumnHeads, writeHeading, writePageHead } from "../blocks/heading";
import {
  budgetAreas,
  budgetHeads,
  budgetLook,
  budgetRows,
  budgetWidths,
  setBudgetHeights,
} from "../blocks/result-tables";
import { type Page, Sheet } from "../blocks/sheet";
import { decimals, looks, native, palette } from "../blocks/style";
import { between } from "../blocks/validation";
import { type Direction, directions, onceLogged, sheets, stationColumns, stationRows } from "./layout";
import { logSettingCell } from "./log";
import { argumentsOf } from "./readings";
import { footer, known } from "./scenario";
import { testSettingPlaces } from "./whole-test";

const first = 7;

const lines = [
  { label: "building height", typed: known.height, format: decimals(1), unit: "m, for the stack" },
  { label: "wind speed", typed: known.wind, format: decimals(1), unit: "m/s" },
  { label: "gauge accuracy", typed: known.gaugeAccuracy, format: "0.000", unit: "half-width, a fraction" },
  { label: "fan gauge accuracy", typed: known.gaugeAccuracy, format: "0.000", unit: "half-width, a fraction" },
  { label: "flow calibration uncertainty", typed: known.flow, format: "0.000", unit: "standard, a fraction" },
  { label: "volume uncertainty", typed: known.volume, format: "0.000", unit: "standard, a fraction" },
] as const;

/** The cell of what is typed under a label. */
const knownSettings = lines.map(({ label, format }, index) => ({ label, format, cell: `C${first + index}` }));

/** How well the result is known: what the stations say of the baselines, and the budgets of depressurization and of the mean. */
export function uncertaintyPage(): Page {
  const last = tableTop.pressurization + budgetRows - 1;
  const budgets = directions.flatMap((direction) => budgetAreas("G", "Q", tableTop[direction]));
  const sheet = new Sheet(sheets.uncertainty, [1.5, 46, 25, 25, 25, 2, ...budgetWidths("a4")], palette.petrol, {
    orientation: "landscape",
    areas: [`B1:E${belowBaselineFacts}`, ...budgets],
    titleRows: "1:4",
    pages: 1 + budgets.length,
    footer,
    workingPaper: true,
  });
  const lead = "The budget by JCGM 100, with the baselines as well known as their stations say.";
  writePageHead(sheet, letterhead, ["B", "E"], sheets.uncertainty, lead);
  writePageHead(
    sheet,
    letterhead,
    ["G", "Q"],
    sheets.uncertainty,
    "Each source is a row; then what follows from all of them.",
  );
  writeColumnHeads(sheet, 4, "G", budgetHeads);
  sheet.height(29, 4).freeze(4);
  sheet.heightOf(15, 5, last);
  for (const direction of directions) setBudgetHeights(sheet, tableTop[direction]);
  writeKnown(sheet);
  writeBaselineFacts(sheet);
  const settings = directions.map((direction) => {
    const [left, right] = settingsColumns[direction];
    writeHeading(sheet, settingsFirst - 1, [left, right], `Settings, ${direction} (not printed)`);
    return writeSettings(sheet, [left, right], settingsFirst, settingsOf(direction));
  });
  directions.forEach((direction, index) => {
    const { pressures, flows, before, after, include } = argumentsOf(direction);
    const top = tableTop[direction];
    const other =
      index === 0 ? undefined : `$G$${tableTop.depressurization}:$Q$${tableTop.depressurization + budgetRows - 1}`;
    writeHeading(sheet, top - 1, ["G", "Q"], titles[direction]);
    const formula = call(
      "UNCERTAINTYBUDGET",
      quoted(direction),
      ...[pressures, flows, before, after],
      settings[index],
      include,
      other,
    );
    sheet.addIn(`G${top}:Q${top + budgetRows - 1}`, onceLogged(formula), budgetLook);
    sheet.when(`I${top}:I${top + budgetRows - 1}`, `I${top}="warning"`, {
      font: { bold: true, color: { rgb: palette.fail } },
    });
  });
  return { sheet, names: {} };
}

/** What the budget takes as known; what stands nowhere is assumed by the function, whose row says so. */
function writeKnown(sheet: Sheet): void {
  writeHeading(sheet, first - 2, ["B", "D"], "What the budget takes as known");
  writeColumnHeads(sheet, first - 1, "B", ["<setting", "value", "<<unit"]);
  writeFormLines(sheet, first, { label: "B", value: "C", unit: "D" }, lines);
  sheet.validate(
    between(`C${first}`, 1, 100, "Building height, m", "From the ground to the top of the envelope."),
    between(`C${first + 1}`, 0, 30, "Wind, m/s", "Mean over the test; 0 is a value."),
    between(
      `C${first + 2}:C${first + lines.length - 1}`,
      0,
      0.5,
      "From the certificate",
      "A fraction: 0.01 for 1 %. Blank leaves it to the function, and its row says what it takes.",
    ),
  );
}

const heads = 16;

/** Below the heads, for each of the two sets: how many stations, standard uncertainty of their mean, its degrees of freedom. */
const sets = ["before", "after"] as const;

type Set = (typeof sets)[number];

const figures = ["count", "uncertainty", "freedom"] as const;

function rowOf(set: Set, figure: (typeof figures)[number]): number {
  return heads + 1 + sets.indexOf(set) * figures.length + figures.indexOf(figure);
}

const lastFigure = rowOf("after", "freedom");

/** The last row that it takes, note included. */
const belowBaselineFacts = lastFigure + 3;

const columnOf: Readonly<Record<Direction, string>> = { depressurization: "C", pressurization: "D" };

/** What a budget is told of a baseline of one direction, by address. */
function baselineFactsOf(direction: Direction, set: Set): Readonly<Record<"uncertainty" | "freedom", string>> {
  const at = (figure: "uncertainty" | "freedom") => `${columnOf[direction]}${rowOf(set, figure)}`;
  return { uncertainty: at("uncertainty"), freedom: at("freedom") };
}

/**
 * How well the baselines of each direction are known, from the standard errors of their stations: of the mean of k stations u² = Σu_i²/k² and
 * ν = u⁴/Σ((u_i/k)⁴/ν_i) (JCGM 100, G.4.1).
 */
function writeBaselineFacts(sheet: Sheet): void {
  writeHeading(sheet, heads - 1, ["B", "E"], "How well the baselines are known, from the stations of the log");
  writeColumnHeads(sheet, heads, "B", ["<", ...directions, "<<unit"]);
  const stationColumn = (letter: string) =>
    onSheet(sheets.stations, `${letter}${stationRows.first}:${letter}${stationRows.last}`);
  const [error, freedom] = [stationColumns.error, stationColumns.freedom].map(stationColumn) as [string, string];
  for (const set of sets) {
    const labels = [
      [rowOf(set, "count"), `Stations ${set}`, ""],
      [rowOf(set, "uncertainty"), `Baseline ${set}: standard uncertainty of its mean`, "Pa"],
      [rowOf(set, "freedom"), "its degrees of freedom", ""],
    ] as const;
    for (const [row, label, unit] of labels) sheet.rich(`B${row}`, label, looks.label).put(`E${row}`, unit, looks.unit);
    for (const direction of directions) {
      const letter = columnOf[direction];
      const stations = argumentsOf(direction)[set];
      const [count, u] = [`${letter}${rowOf(set, "count")}`, `${letter}${rowOf(set, "uncertainty")}`];
      const sum = (power: number, over: string) =>
        `SUMPRODUCT((${stations}<>"")*${error}^${power}${over})/${count}^${power}`;
      sheet.formula(count, `COUNT(${stations})`, native("0"));
      sheet.formula(u, `IF(${count}=0,"",SQRT(${sum(2, "")}))`, native("0.000"));
      const ofMean = `MAX(1,${u}^4/(${sum(4, `/(${freedom}+(${freedom}=0))`)}))`;
      sheet.formula(`${letter}${rowOf(set, "freedom")}`, `IF(COUNT(${u})=0,"",IF(${u}=0,"",${ofMean}))`, native("0.0"));
    }
  }
  sheet.put(
    `B${lastFigure + 1}`,
    "Handed on as the settings “baseline before uncertainty”, “baseline after uncertainty” and their degrees of freedom. The form of the final test takes one uncertainty for both, on its sheet Uncertainty: there type the larger one and the fewer degrees of freedom.",
    looks.note,
  );
  sheet.merge(`B${lastFigure + 1}:E${belowBaselineFacts}`);
}

const settingsColumns = { depressurization: ["B", "C"], pressurization: ["D", "E"] } as const;

/** The settings repeat for the screen what other cells hold; they do not print. */
const settingsFirst = belowBaselineFacts + 4;

/** The first row of a table; its title stands above it. The second one is that of the mean. They begin below what is beside them, whose rows are lower. */
const tableTop = { depressurization: settingsFirst + 30, pressurization: settingsFirst + 30 + budgetRows + 4 } as const;
const titles = {
  depressurization: "Budget of depressurization",
  pressurization: "Budget of the mean of both directions",
} as const;

/** The expanded uncertainty of the mean of both directions, or #N/A. */
export const expandedOfMean = (() => {
  const top = tableTop.pressurization;
  const column = (letter: string) => onSheet(sheets.uncertainty, `${letter}${top}:${letter}${top + budgetRows - 1}`);
  return `INDEX(${column("I")},MATCH("expanded",${column("H")},0))`;
})();

/** The settings of the whole test, what the certificate and the log say, and the baselines of this direction. */
function settingsOf(direction: Direction): readonly Setting[] {
  const { flows, include } = argumentsOf(direction);
  const [c, m] = [logSettingCell("fan coefficient"), logSettingCell("fan exponent")];
  const lowest = `_xlfn.MINIFS(${flows},${include},"yes")`;
  return [
    ...testSettingPlaces.map(({ label, cell, format }): Setting => [label, keepBlanks(cell), format]),
    ["gauge resolution", keepBlanks(logSettingCell("gauge resolution")), decimals(1)],
    ["fan exponent", keepBlanks(m), "0.000"],
    ["fan pressure at lowest flow", `IF(COUNT(${flows},${c},${m})<3,"",(${lowest}/${c})^(1/${m}))`, decimals(1)],
    ["budget quantity", quoted("n50")],
    ...(["before", "after"] as const).flatMap((set): Setting[] => {
      const { uncertainty, freedom } = baselineFactsOf(direction, set);
      return [
        [`baseline ${set} uncertainty`, keepBlanks(uncertainty), "0.000"],
        [`baseline ${set} degrees of freedom`, keepBlanks(freedom), decimals(1)],
      ];
    }),
    ...knownSettings.map(({ label, cell, format }): Setting => [label, keepBlanks(cell), format]),
  ];
}
