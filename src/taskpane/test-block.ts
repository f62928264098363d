import { formatAreaAddress } from "../workbook/book/address";
import type { Units } from "./entries";
import type { SelectedArea } from "./port/port";

type Entry = string | number | null;

/** A part of the block with its cells, for whoever must agree to it first. */
interface BlockPart {
  readonly name: string;
  readonly area: string;
  readonly filledBy: "you" | "Stillair";
}

export interface TestBlock {
  readonly cells: readonly (readonly Entry[])[];
  /** With the room for tables that spill, and some rows more, in case a later method has longer ones. */
  readonly reach: { readonly rows: number; readonly columns: number };
  readonly parts: readonly BlockPart[];
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
const readingsColumn = 4;
const readingRows = 10;
/** The sizes of the tables, with a row of headings each. */
const tables = {
  result: { column: 9, rows: 42, columns: 7 },
  checks: { column: 17, rows: 36, columns: 9 },
  budget: { column: 27, rows: 94, columns: 11 },
} as const;
const spareRows = 4;
const reach = { rows: 1 + tables.budget.rows + spareRows, columns: tables.budget.column + tables.budget.columns };

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
): TestBlock {
  const grid = new Grid(place);
  grid.put(0, 0, "Fan pressurization test");
  grid.put(1, 0, "Type settings, readings and the limit; everything else follows.");
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
  return { cells: grid.listCells(), reach, parts: grid.parts };
}

/** The cells of the block, and their addresses in the sheet. */
class Grid {
  readonly parts: BlockPart[] = [];
  private readonly rows: Entry[][] = Array.from({ length: reach.rows }, () =>
    Array.from({ length: reach.columns }, () => null),
  );

  constructor(private readonly place: Pick<SelectedArea, "row" | "column">) {}

  put(row: number, column: number, ...entries: readonly Entry[]): void {
    this.rows[row]!.splice(column, entries.length, ...entries);
  }

  name(row: number, column: number, rows = 1, columns = 1): string {
    const { row: top, column: left } = { row: this.place.row + row, column: this.place.column + column };
    return formatAreaAddress({ top, left, bottom: top + rows - 1, right: left + columns - 1 });
  }

  addPart(name: string, area: string, filledBy: BlockPart["filledBy"]): void {
    this.parts.push({ name, area, filledBy });
  }

  /** Without the rows and columns at the end that hold nothing: they are reserved, not written. */
  listCells(): Entry[][] {
    const columns = Math.max(...this.rows.map((row) => row.findLastIndex((entry) => entry !== null))) + 1;
    const rows = this.rows.findLastIndex((row) => row.some((entry) => entry !== null)) + 1;
    return this.rows.slice(0, rows).map((row) => row.slice(0, columns));
  }
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
  const { volume, flow, length, temperature, barometer, speed } = unitsOf[units];
  const lines: readonly (readonly Entry[])[] = [
    ["volume", null, volume],
    ["building height", null, length],
    ["indoor temperature", null, temperature],
    ["outdoor temperature", null, temperature],
    ["barometric pressure", null, `${barometer}, at the site`],
    ["wind speed", null, speed],
    ["wind place", null, "near the ground, or weather station"],
    ["beaufort", null, "0 to 12"],
    ["test date", null, "date"],
    ["gauge certificate valid until", null, "date"],
    ["flow device certificate valid until", null, "date"],
    ["flow basis", flowBasis],
    ["standard", standard],
    ["units", units],
    ["headings", "yes"],
  ];
  grid.put(settingsRow - 2, 0, "Settings");
  lines.forEach((line, index) => grid.put(settingsRow + index, 0, ...line));
  const otherFlowRows = [settingsRow - 1, settingsRow + lines.length] as const;
  otherFlowRows.forEach((row, index) => {
    const remark = `${flow}, for the checks of ${directions[index]!.direction}`;
    grid.put(row, 0, "q50 of the other direction", null, remark);
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
  readonly direction: string;
  readonly tablesRow: number;
  /** The arguments of its calls before the settings. */
  readonly readings: string;
  readonly isReady: string;
}

function writeReadings(
  grid: Grid,
  units: Units,
  { direction, readingsRow, tablesRow }: (typeof directions)[number],
): Run {
  grid.put(readingsRow, readingsColumn, `Readings, ${direction}`);
  const heads = ["pressure, Pa", `flow, ${unitsOf[units].flow}`, "baseline before, Pa", "baseline after, Pa"];
  grid.put(readingsRow + 1, readingsColumn, ...heads);
  const first = readingsRow + 2;
  const [pressures, flows, ...baselines] = heads.map((_, index) =>
    grid.name(first, readingsColumn + index, readingRows),
  );
  grid.addPart(`Readings, ${direction}`, grid.name(first, readingsColumn, readingRows, heads.length), "you");
  return {
    direction,
    tablesRow,
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
  grid.put(headRow, column, name);
  grid.put(row, column, onceReady(call.isReady, call.text));
  const whole = grid.name(row, column, rows, columns);
  grid.addPart(name, whole, "Stillair");
  return {
    anchor: grid.name(row, column),
    symbols: grid.name(row, column + 1, rows),
    values: grid.name(row, column + 2, rows),
    whole,
  };
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
  grid.put(verdictRow - 1, 0, "Result and verdict");
  lines.forEach((line, index) => grid.put(verdictRow + index, 0, ...line));
  grid.addPart("Limit and rule", grid.name(verdictRow + 4, 1, 2), "you");
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
