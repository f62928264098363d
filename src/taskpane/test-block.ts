import { barometer, decimals, shortDay } from "../workbook/looks";
import { budgetFormats, measuredFormat, resultFormats, wholeTestSymbols } from "../workbook/table-formats";
import { writeGraph } from "./block-graph";
import { type BlockPart, type Entry, Grid } from "./block-grid";
import type { Units } from "./entries";
import type { BlockLooks, SelectedArea } from "./port/port";

export interface TestBlock {
  readonly cells: readonly (readonly Entry[])[];
  /** With the room for tables that spill, and some rows more, in case a later method has longer ones. */
  readonly reach: { readonly rows: number; readonly columns: number };
  readonly parts: readonly BlockPart[];
  readonly looks: BlockLooks;
}

/** What the block says of the test in words; a tester may type other ones over them. */
export interface BlockTerms {
  readonly standard: string;
  readonly flowBasis: string;
}

export const usualTerms: BlockTerms = { standard: "ISO 9972", flowBasis: "indicated at calibration density" };

/** Rows and columns from the block's first cell on: left what is typed and the verdict, right the tables, a blank column between them. */
const settingsRow = 4;
const verdictRow = 22;
/** The limit's line within the verdict's. */
const limitLine = 4;
const readingsColumn = 4;
const readingRows = 10;
/** The sizes of the tables, with a row of headings each; their columns of words, and among them those beside a number. */
const tables = {
  result: { column: 9, rows: 42, columns: 7, words: [0, 1, 5, 6], units: [5] },
  checks: { column: 17, rows: 36, columns: 9, words: [0, 1, 3, 4, 5, 6, 7, 8], units: [3, 4] },
  budget: { column: 27, rows: 94, columns: 11, words: [0, 1, 3, 10], units: [3, 10] },
} as const;
const spareRows = 4;
const reach = { rows: 1 + tables.budget.rows + spareRows, columns: tables.budget.column + tables.budget.columns };

/** Wide enough for their words, in points; narrow ones between the parts. */
const widths: BlockLooks["widths"] = [
  ...[170, 150, 185, 14],
  ...[85, 85, 95, 95, 14],
  ...[320, 60, 140, 70, 70, 85, 190, 14],
  ...[340, 80, 90, 110, 50, 95, 100, 400, 340, 14],
  ...[290, 85, 150, 75, 75, 80, 60, 110, 65, 65, 330],
].map((points, column) => ({ column, points, shrinks: column > 8 }));

/** Each direction with the first rows of its readings and of its tables. */
const directions = [
  { direction: "depressurization", readingsRow: 2, tablesRow: 0 },
  { direction: "pressurization", readingsRow: 16, tablesRow: 1 + tables.result.rows + spareRows },
] as const;

/**
 * The smallest test in a sheet of the firm's own: settings, ten readings and baselines in each direction, both results, their mean with its uncertainty,
 * the checks and the verdict. While nothing is typed its formulas give "" or say so. The formulas need no function newer than Excel 2007.
 */
export function composeTestBlock(
  units: Units,
  place: Pick<SelectedArea, "row" | "column">,
  terms: BlockTerms = usualTerms,
  hasGraph = false,
): TestBlock {
  const grid = new Grid(place, reach);
  grid.write("heading", 0, 0, "Fan pressurization test", 3);
  grid.write("note", 1, 0, "Type settings, readings and the limit; everything else follows.");
  const settings = writeSettings(grid, units, terms);
  const runs = directions.map((direction) => writeReadings(grid, units, direction));
  const [depressurization, pressurization] = runs as [Run, Run];
  const results = runs.map((run) =>
    writeTable(grid, `Result, ${run.direction}`, run.tablesRow, "result", callOf("TESTRESULT", run, settings.test)),
  );
  const checks = runs.map((run, index) => {
    const call = callOf("VALIDITYCHECKS", run, settings.checks[index]!);
    return writeTable(grid, `Checks, ${run.direction}`, run.tablesRow, "checks", call);
  });
  const budget = writeTable(grid, "Uncertainty of the mean", 0, "budget", {
    isReady: `AND(${depressurization.isReady},${pressurization.isReady})`,
    text: callBudget(depressurization, settings.test, callBudget(pressurization, settings.test)),
  });
  settings.otherFlowRows.forEach((row, index) => {
    const other = 1 - index;
    grid.put(row, 1, onceReady(runs[other]!.isReady, `IFERROR(${findValue(results[other]!, "q50")},"")`));
  });
  writeVerdict(grid, runs, results, checks, budget);
  const curves = runs.map(({ direction, first }, index) => ({
    direction,
    readings: Array.from({ length: readingRows }, (_, reading): [string, string] => [
      grid.name(first + reading, readingsColumn),
      grid.name(first + reading, readingsColumn + 1),
    ]),
    findValue: (symbol: string) => findValue(results[index]!, symbol),
  }));
  const limit = grid.name(verdictRow + limitLine, 1);
  const chart = hasGraph ? writeGraph(grid, curves, limit, unitsOf[units].flow) : undefined;
  return {
    cells: grid.listCells(),
    reach,
    parts: grid.parts,
    looks: { areas: grid.looks, widths, ...(chart && { chart }) },
  };
}

const unitsOf = {
  SI: { volume: "m³", flow: "m³/h", length: "m", temperature: "°C", barometer: "Pa", speed: "m/s" },
  IP: { volume: "ft³", flow: "cfm", length: "ft", temperature: "°F", barometer: "inHg", speed: "mph" },
} as const;

interface SettingsPlaces {
  readonly test: string;
  /** For each direction one row more, above or below the others: the flow of the other direction, on which the results must not depend. */
  readonly checks: readonly [string, string];
  readonly otherFlowRows: readonly [number, number];
}

function writeSettings(grid: Grid, units: Units, { standard, flowBasis }: BlockTerms): SettingsPlaces {
  const { volume, flow, length, temperature, barometer: barometerUnit, speed } = unitsOf[units];
  const [one, day] = [decimals(1), shortDay];
  const lines: readonly (readonly [label: string, entry: Entry, remark?: string, format?: string])[] = [
    ["volume", null, volume, one],
    ["building height", null, length, one],
    ["indoor temperature", null, temperature, one],
    ["outdoor temperature", null, temperature, one],
    ["barometric pressure", null, `${barometerUnit}, at the site`, barometer],
    ["wind speed", null, speed, one],
    ["wind place", null, "near the ground, or weather station"],
    ["beaufort", null, "0 to 12"],
    ["test date", null, "date", day],
    ["gauge certificate valid until", null, "date", day],
    ["flow device certificate valid until", null, "date", day],
    ["flow basis", flowBasis],
    ["standard", standard],
    ["units", units],
    ["headings", "yes"],
  ];
  grid.write("heading", settingsRow - 2, 0, "Settings", 3);
  lines.forEach(([label, entry, remark = null], index) => grid.put(settingsRow + index, 0, label, entry, remark));
  grid.dress("label", settingsRow - 1, 0, lines.length + 2);
  grid.dress("unit", settingsRow - 1, 2, lines.length + 2);
  const formats = lines.map(([, , , format = "General"]) => format);
  grid.dress("input", settingsRow, 1, lines.length, 1, formats);
  const otherFlowRows = [settingsRow - 1, settingsRow + lines.length] as const;
  otherFlowRows.forEach((row, index) => {
    const remark = `${flow}, for the checks of ${directions[index]!.direction}`;
    grid.put(row, 0, "q50 of the other direction", null, remark);
    grid.dress("native", row, 1, 1, 1, one);
  });
  const test = grid.name(settingsRow, 0, lines.length, 2);
  grid.addPart("Settings", test, "you");
  return {
    test,
    checks: [grid.name(settingsRow - 1, 0, lines.length + 1, 2), grid.name(settingsRow, 0, lines.length + 1, 2)],
    otherFlowRows,
  };
}

interface Run {
  readonly direction: (typeof directions)[number]["direction"];
  readonly tablesRow: number;
  /** The row of its first reading. */
  readonly first: number;
  /** The arguments of its calls before the settings. */
  readonly readings: string;
  readonly isReady: string;
}

function writeReadings(
  grid: Grid,
  units: Units,
  { direction, readingsRow, tablesRow }: (typeof directions)[number],
): Run {
  const heads = ["pressure, Pa", `flow, ${unitsOf[units].flow}`, "baseline before, Pa", "baseline after, Pa"];
  grid.write("heading", readingsRow, readingsColumn, `Readings, ${direction}`, heads.length);
  grid.put(readingsRow + 1, readingsColumn, ...heads);
  grid.dress("columnHead", readingsRow + 1, readingsColumn, 1, heads.length);
  const first = readingsRow + 2;
  grid.dress("input", first, readingsColumn, readingRows, heads.length, decimals(1));
  const [pressures, flows, ...baselines] = heads.map((_, index) =>
    grid.name(first, readingsColumn + index, readingRows),
  );
  grid.addPart(`Readings, ${direction}`, grid.name(first, readingsColumn, readingRows, heads.length), "you");
  return {
    direction,
    tablesRow,
    first,
    readings: [`"${direction}"`, pressures, flows, ...baselines.map(keepBlanks)].join(","),
    // A line through fewer readings says nothing.
    isReady: `MIN(COUNT(${pressures}),COUNT(${flows}))>2`,
  };
}

/** What a table's first cell gives, as soon as there is something to compute. */
interface Call {
  readonly isReady: string;
  readonly text: string;
}

const callOf = (id: string, { readings, isReady }: Run, settings: string): Call => ({
  isReady,
  text: `STILLAIR.${id}(${readings},${keepBlanks(settings)})`,
});

/** The budget of a run, or with that of the other direction of their mean. */
const callBudget = ({ readings }: Run, settings: string, other?: string): string =>
  `STILLAIR.UNCERTAINTYBUDGET(${[readings, keepBlanks(settings), ...(other === undefined ? [] : ["", other])].join(",")})`;

interface Table {
  readonly anchor: string;
  readonly symbols: string;
  readonly values: string;
  readonly whole: string;
}

function writeTable(grid: Grid, name: string, headRow: number, kind: keyof typeof tables, call: Call): Table {
  const { column, rows, columns } = tables[kind];
  const row = headRow + 1;
  grid.write("heading", headRow, column, name, columns);
  grid.put(row, column, onceReady(call.isReady, call.text));
  dressTable(grid, row, kind);
  const whole = grid.name(row, column, rows, columns);
  grid.addPart(name, whole, "Stillair");
  return {
    anchor: grid.name(row, column),
    symbols: grid.name(row, column + 1, rows),
    values: grid.name(row, column + 2, rows),
    whole,
  };
}

/** Figures with the digits that a reader wants to see; words as they are. */
function dressTable(grid: Grid, row: number, kind: keyof typeof tables): void {
  const { column, rows, columns, words, units } = tables[kind];
  const first = row + 1;
  grid.dress("columnHead", row, column, 1, columns);
  grid.dress("fromAddIn", first, column, rows - 1, columns);
  for (const word of words) grid.dress("columnHeadLeft", row, column + word);
  for (const beside of units) grid.dress("unit", first, column + beside, rows - 1);
  if (kind === "result") {
    const formats = wholeTestSymbols.map((symbol) => resultFormats[symbol] ?? "General");
    grid.dress("native", first, column + 2, formats.length, 3, formats);
  }
  if (kind === "checks") grid.dress("native", first, column + 2, rows - 1, 1, measuredFormat);
  if (kind === "budget")
    budgetFormats.forEach((format, index) => {
      if (format !== undefined) grid.dress("native", first, column + index, rows - 1, 1, format);
    });
}

function writeVerdict(
  grid: Grid,
  runs: readonly Run[],
  results: readonly Table[],
  checks: readonly Table[],
  budget: Table,
): void {
  const [first, second, mean, expanded, limit, rule] = Array.from({ length: 6 }, (_, line) =>
    grid.name(verdictRow + line, 1),
  );
  const bothReady = `AND(${runs.map(({ isReady }) => isReady).join(",")})`;
  const judged = [mean, limit, expanded, rule, "", ...checks.map(({ whole }) => whole)].join(",");
  const verdict = `IF(COUNT(${limit})=0,"no limit given",STILLAIR.PASSFAIL(${judged}))`;
  const lines: readonly (readonly Entry[])[] = [
    ...runs.map(({ direction, isReady }, index) => [
      `n50, ${direction}`,
      onceReady(isReady, passError(results[index]!, "n50")),
      "1/h",
    ]),
    ["n50, mean", onceReady(bothReady, `STILLAIR.AVERAGEDRESULT(${first},${second})`), "1/h"],
    ["expanded uncertainty, 95 %", onceReady(bothReady, passError(budget, "expanded")), "1/h"],
    ["limit of n50", null, "1/h"],
    ["rule of the verdict", "plain"],
    ["verdict", onceReady(bothReady, verdict, "not tested yet")],
  ];
  grid.write("heading", verdictRow - 1, 0, "Result and verdict", 3);
  lines.forEach((line, index) => grid.put(verdictRow + index, 0, ...line));
  grid.dress("label", verdictRow, 0, lines.length);
  grid.dress("unit", verdictRow, 2, lines.length);
  grid.dress("native", verdictRow, 1, 4, 1, decimals(3));
  grid.dress("input", verdictRow + limitLine, 1, 2, 1, decimals(2));
  grid.dress("native", verdictRow + lines.length - 1, 1);
  grid.dress("strong", verdictRow + lines.length - 1, 0, 1, 2);
  grid.addPart("Limit and rule", grid.name(verdictRow + limitLine, 1, 2), "you");
  grid.addPart("Results and verdict", grid.name(verdictRow, 0, lines.length, 3), "Stillair");
}

/** Blank cells stay blank, where 0 is a reading: some versions of Excel hand them over as 0. */
const keepBlanks = (range: string): string => `IF(${range}="","",${range})`;

const onceReady = (isReady: string, text: string, until = ""): string => `=IF(${isReady},${text},"${until}")`;

/** A table's value by its symbol. */
const findValue = ({ symbols, values }: Table, symbol: string): string =>
  `INDEX(${values},MATCH("${symbol}",${symbols},0))`;

/** The same; where the table is an error, that error, which says what is wrong. */
const passError = (table: Table, symbol: string): string =>
  `IF(ISERROR(${table.anchor}),${table.anchor},${findValue(table, symbol)})`;
