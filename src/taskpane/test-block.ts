import { element, listTable } from "../views/elements";
import { formatAreaAddress } from "../workbook/book/address";
import type { SettingEntry, Units } from "./entries";
import {
  createAction,
  createChoice,
  createPlaceField,
  describeWritten,
  findInTheWay,
  type FormTools,
} from "./form-parts";
import { formatSelected } from "./port/addresses";
import type { SelectedArea } from "./port/port";

type Entry = string | number | null;

/** A part of the block, with its cells, for whoever must agree to it first. */
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

const usualTerms: BlockTerms = { standard: "ISO 9972", flowBasis: "indicated at calibration density" };

const unitsOf = {
  SI: { volume: "m³", flow: "m³/h", length: "m", temperature: "°C", barometer: "Pa", speed: "m/s" },
  IP: { volume: "ft³", flow: "cfm", length: "ft", temperature: "°F", barometer: "inHg", speed: "mph" },
} as const;

/** Rows and columns from the block's first cell. Left what is typed and the verdict, right the tables, one column between them. */
const settingsRow = 3;
const readingRows = 10;
const readingsColumn = 4;
const tablesColumn = 9;
/** With a row of headings each. */
const tables = {
  result: { rows: 42, columns: 7 },
  checks: { rows: 36, columns: 9 },
  budget: { rows: 94, columns: 11 },
} as const;
const spareRows = 4;
const checksColumn = tablesColumn + tables.result.columns + 1;
const budgetColumn = checksColumn + tables.checks.columns + 1;
const reach = { rows: 1 + tables.budget.rows + spareRows, columns: budgetColumn + tables.budget.columns };

/** Each direction with the first rows of its readings and of its tables. */
const runs = [
  { direction: "depressurization", title: "Depressurization", readings: 2, tables: 0 },
  { direction: "pressurization", title: "Pressurization", readings: 16, tables: 1 + tables.result.rows + spareRows },
] as const;

/**
 * The smallest test in a sheet of the firm's own: settings, ten readings and baselines in each direction, both results, their mean with its uncertainty,
 * the checks and the verdict. While nothing is typed its formulas give "" or say so. The formulas need no function newer than Excel 2007.
 */
export function composeTestBlock(
  units: Units,
  { row: top, column: left }: Pick<SelectedArea, "row" | "column">,
  { standard, flowBasis }: BlockTerms = usualTerms,
): TestBlock {
  const grid: Entry[][] = Array.from({ length: reach.rows }, () => Array.from({ length: reach.columns }, () => null));
  const parts: BlockPart[] = [];
  const put = (row: number, column: number, ...entries: readonly Entry[]): void => {
    entries.forEach((entry, index) => (grid[row]![column + index] = entry));
  };
  const area = (row: number, column: number, rows = 1, columns = 1): string =>
    formatAreaAddress({
      top: top + row,
      left: left + column,
      bottom: top + row + rows - 1,
      right: left + column + columns - 1,
    });
  const unit = unitsOf[units];

  put(0, 0, "Fan pressurization test");
  put(1, 0, "Type settings, readings and the limit; everything else follows.");
  put(settingsRow - 1, 0, "Settings");
  const settings: readonly (readonly [label: string, value: Entry, unit: string])[] = [
    ["volume", null, unit.volume],
    ["building height", null, unit.length],
    ["indoor temperature", null, unit.temperature],
    ["outdoor temperature", null, unit.temperature],
    ["barometric pressure", null, `${unit.barometer}, at the site`],
    ["wind speed", null, unit.speed],
    ["flow basis", flowBasis, ""],
    ["standard", standard, ""],
    ["units", units, ""],
    ["headings", "yes", ""],
  ];
  settings.forEach((line, index) => put(settingsRow + index, 0, ...line.map((entry) => (entry === "" ? null : entry))));
  const settingsArea = area(settingsRow, 0, settings.length, 2);
  parts.push({ name: "Settings", area: settingsArea, filledBy: "you" });

  const calls = runs.map(({ direction, title, readings, tables: tablesRow }) => {
    put(readings, readingsColumn, title);
    put(
      readings + 1,
      readingsColumn,
      "pressure, Pa",
      `flow, ${unit.flow}`,
      "baseline before, Pa",
      "baseline after, Pa",
    );
    const columnOf = (index: number): string => area(readings + 2, readingsColumn + index, readingRows);
    const [pressures, flows, before, after] = [0, 1, 2, 3].map(columnOf) as [string, string, string, string];
    parts.push({
      name: `Readings, ${direction}`,
      area: area(readings + 2, readingsColumn, readingRows, 4),
      filledBy: "you",
    });
    const given = `"${direction}",${pressures},${flows},${[before, after, settingsArea].map(keepBlanks).join(",")}`;
    return { direction, tablesRow, given, isReady: `MIN(COUNT(${pressures}),COUNT(${flows}))>2` };
  });
  const [depressurized, pressurized] = calls as [(typeof calls)[number], (typeof calls)[number]];
  const bothReady = `AND(${depressurized.isReady},${pressurized.isReady})`;

  const putTable = (name: string, row: number, column: number, size: keyof typeof tables, formula: string): Table => {
    const { rows, columns } = tables[size];
    put(row, column, name);
    put(row + 1, column, formula);
    const whole = area(row + 1, column, rows, columns);
    parts.push({ name, area: whole, filledBy: "Stillair" });
    const cells = { anchor: area(row + 1, column), symbols: area(row + 1, column + 1, rows) };
    return { ...cells, whole, values: area(row + 1, column + 2, rows) };
  };
  const results = calls.map(({ direction, tablesRow, given, isReady }) =>
    putTable(
      `Result, ${direction}`,
      tablesRow,
      tablesColumn,
      "result",
      onceReady(isReady, `STILLAIR.TESTRESULT(${given})`),
    ),
  );
  const checks = calls.map(({ direction, tablesRow, given, isReady }) =>
    putTable(
      `Checks, ${direction}`,
      tablesRow,
      checksColumn,
      "checks",
      onceReady(isReady, `STILLAIR.VALIDITYCHECKS(${given})`),
    ),
  );
  const budgetOf = ({ given }: { given: string }, ...more: readonly string[]): string =>
    `STILLAIR.UNCERTAINTYBUDGET(${[given, ...more].join(",")})`;
  const budget = putTable(
    "Uncertainty of the mean",
    0,
    budgetColumn,
    "budget",
    onceReady(bothReady, budgetOf(depressurized, "", budgetOf(pressurized))),
  );

  const verdictRow = settingsRow + settings.length + 2;
  const lineAt = (index: number): string => area(verdictRow + index, 1);
  const [ofDepressurization, ofPressurization, mean, expanded, limit, rule] = [0, 1, 2, 3, 4, 5].map(
    lineAt,
  ) as string[];
  const outcome = [`${mean},${limit},${expanded},${rule}`, "", ...checks.map(({ whole }) => whole)].join(",");
  put(verdictRow - 1, 0, "Result and verdict");
  const lines: readonly (readonly Entry[])[] = [
    ["n50, depressurization", onceReady(depressurized.isReady, findValue(results[0]!, "n50")), "1/h"],
    ["n50, pressurization", onceReady(pressurized.isReady, findValue(results[1]!, "n50")), "1/h"],
    ["n50, mean", onceReady(bothReady, `STILLAIR.AVERAGEDRESULT(${ofDepressurization},${ofPressurization})`), "1/h"],
    ["expanded uncertainty, 95 %", onceReady(bothReady, findValue(budget, "expanded")), "1/h"],
    ["limit of n50", null, "1/h"],
    ["rule of the verdict", "plain"],
    [
      "verdict",
      `=IF(${bothReady},IF(COUNT(${limit})=0,"no limit given",STILLAIR.PASSFAIL(${outcome})),"not tested yet")`,
    ],
  ];
  lines.forEach((line, index) => put(verdictRow + index, 0, ...line));
  parts.push({ name: "Limit and rule", area: area(verdictRow + 4, 1, 2), filledBy: "you" });
  parts.push({ name: "Results and verdict", area: area(verdictRow, 0, lines.length, 3), filledBy: "Stillair" });
  return { cells: trim(grid), reach, parts };
}

interface Table {
  readonly anchor: string;
  readonly symbols: string;
  readonly values: string;
  readonly whole: string;
}

/** Blank cells stay blank, where 0 is a reading: some versions of Excel hand them over as 0. */
const keepBlanks = (range: string): string => `IF(${range}="","",${range})`;

const onceReady = (isReady: string, formula: string): string => `=IF(${isReady},${formula},"")`;

/** A table's value by its symbol; where the table is an error, that error, which says what is wrong. */
const findValue = ({ anchor, symbols, values }: Table, symbol: string): string =>
  `IF(ISERROR(${anchor}),${anchor},INDEX(${values},MATCH("${symbol}",${symbols},0)))`;

/** Without the rows and columns at the end that hold nothing: they are reserved, not written. */
function trim(grid: readonly (readonly Entry[])[]): Entry[][] {
  const columns = Math.max(...grid.map((row) => row.findLastIndex((entry) => entry !== null))) + 1;
  const rows = grid.findLastIndex((row) => row.some((entry) => entry !== null)) + 1;
  return grid.slice(0, rows).map((row) => row.slice(0, columns));
}

/** Puts the smallest test into the firm's own sheet, after the person has seen which cells it takes. */
export function createStartBlock(tools: FormTools & { readonly settings: readonly SettingEntry[] }): HTMLElement {
  const { session, say, settings } = tools;
  const shown = element("div", { class: "result" });
  const choicesOf = (wanted: string) => settings.find(({ label }) => label === wanted)?.choices ?? [];
  const forget = (): void => shown.replaceChildren();
  const systems = createChoice(
    [
      { word: "SI", meaning: "m³/h, m³, °C" },
      { word: "IP", meaning: "cfm, ft³, °F" },
    ],
    { id: "block-units", onchange: forget },
  );
  const standards = createChoice(choicesOf("standard"), { id: "block-standard", onchange: forget });
  const bases = createChoice(choicesOf("flow basis"), { id: "block-flow-basis", onchange: forget });
  const place = createPlaceField(tools, forget);

  const show = async (): Promise<void> => {
    const at = place.require();
    const block = composeTestBlock(systems.value === "IP" ? "IP" : "SI", at, {
      standard: standards.value || usualTerms.standard,
      flowBasis: bases.value || usualTerms.flowBasis,
    });
    forget();
    const taken = await findInTheWay(tools, at, block.reach);
    if (taken) throw new Error(`Nothing can be written: ${taken} already holds something. Pick another place.`);
    const rows = block.parts.map(({ name, area, filledBy }) => [name, area, filledBy]);
    shown.replaceChildren(
      listTable(formatSelected({ ...at, ...block.reach }), ["part", "cells", "filled by"], rows),
      createAction(tools, "Write these cells", () => write(at, block)),
    );
  };
  const write = async (at: SelectedArea, { cells, reach: room }: TestBlock): Promise<void> => {
    await session.port.write({ sheet: at.sheet, row: at.row, column: at.column, cells, reach: room });
    forget();
    say(describeWritten(at, room));
  };

  return element(
    "form",
    { class: "start-form", "aria-label": "Test block", onsubmit: (event) => event.preventDefault() },
    element("p", {}, element("label", { for: systems.id }, "Units"), " ", systems),
    element("p", {}, element("label", { for: standards.id }, "Standard"), " ", standards),
    element("p", {}, element("label", { for: bases.id }, "Flows are"), " ", bases),
    place.element,
    element("p", { class: "actions" }, createAction(tools, "Show the cells", show)),
    shown,
  );
}
