import { formatFullAddress } from "../../workbook/book/address";
import { parseSelected } from "./addresses";
import { readCells } from "./office-cells";
import { addChart, type ChartPlan, describeChart, findAxisEnds } from "./office-chart";
import { dressBlock, readSurroundings } from "./office-looks";
import { findUnboundSheets, mendSheet } from "./office-mend";
import { nameDocument, readFile } from "./office-file";
import {
  type Abilities,
  type Block,
  type DrawnGraph,
  PortProblem,
  type SelectedArea,
  type UnboundSheet,
  type Unsubscribe,
  type WorkbookContent,
  type WorkbookPort,
} from "./port";

/** The requirement sets that the pane's parts need, with what is missing without them. */
const wanted = [
  {
    set: "1.8",
    lack: "This Excel opens no new workbooks for the pane: blank forms and issue copies are saved as files.",
  },
  { set: "1.9", lack: "This Excel takes no pictures and no charts from the pane." },
  { set: "1.12", lack: "This Excel does not say how far results spill; cells in the way show as #SPILL!." },
] as const;

const has = (set: string): boolean => Office.context.requirements.isSetSupported("ExcelApi", set);

/** The workbook in Excel, through Office.js. Nothing is kept between calls but addresses. */
export class OfficePort implements WorkbookPort {
  readonly abilities: Abilities = {
    // Before this set what an add-in writes clears Excel's list of steps.
    canUndo: has("1.19"),
    undoesAtOnce: has("1.20"),
    canDraw: has("1.9"),
    newWorkbook: has("1.8") ? "opens" : "saves",
    lacks: [
      ...(Office.context.document.mode === Office.DocumentMode.ReadOnly
        ? ["This workbook is open for reading only: the tools show, but write nothing into it."]
        : []),
      ...wanted.filter(({ set }) => !has(set)).map(({ lack }) => lack),
    ],
  };

  constructor(private readonly save: (name: string, bytes: Uint8Array) => void) {}

  async read(): Promise<WorkbookContent> {
    const name = nameDocument();
    let bytes: Uint8Array;
    try {
      bytes = await readFile();
    } catch {
      // Excel on the web hands over the file in some places only.
      return { name, cells: await readCells() };
    }
    return { name, bytes };
  }

  async findSelection(): Promise<SelectedArea | undefined> {
    try {
      return await Excel.run(async (context) => {
        const range = context.workbook.getSelectedRange();
        range.load("rowIndex,columnIndex,rowCount,columnCount");
        range.worksheet.load("name");
        await context.sync();
        const { rowIndex: row, columnIndex: column, rowCount: rows, columnCount: columns } = range;
        return { sheet: range.worksheet.name, row, column, rows, columns };
      });
    } catch {
      // A chart, a shape or several areas are selected, or a cell is being edited.
      return undefined;
    }
  }

  onSelection = (listener: () => void): Promise<Unsubscribe> =>
    subscribe((workbook) => workbook.onSelectionChanged.add(() => call(listener)));

  async onChange(listener: () => void): Promise<Unsubscribe> {
    const ends: Unsubscribe[] = [];
    const endAll = async (): Promise<void> => {
      await Promise.allSettled(ends.map((end) => end()));
    };
    try {
      ends.push(await subscribe(({ worksheets }) => worksheets.onChanged.add(() => call(listener))));
      ends.push(await subscribe(({ worksheets }) => worksheets.onAdded.add(() => call(listener))));
      ends.push(await subscribe(({ worksheets }) => worksheets.onDeleted.add(() => call(listener))));
      if (has("1.17"))
        ends.push(await subscribe(({ worksheets }) => worksheets.onNameChanged.add(() => call(listener))));
    } catch (problem) {
      await endAll();
      throw problem;
    }
    return endAll;
  }

  select(address: string): Promise<void> {
    const area = parseSelected(address);
    if (!area) return Promise.reject(new PortProblem(`“${address}” is not a cell or an area.`));
    return attempt(`${address} could not be selected`, () =>
      Excel.run(async (context) => {
        const sheet = context.workbook.worksheets.getItemOrNullObject(area.sheet);
        await context.sync();
        if (sheet.isNullObject) throw new PortProblem(`There is no sheet “${area.sheet}” any more.`);
        sheet.activate();
        findRange(sheet, area).select();
        await context.sync();
      }),
    );
  }

  /** One assignment for all cells, which Excel takes whole or not at all, after a look at whatever is in the way; then their looks. */
  async write({ sheet: name, row, column, cells, reach, replaces = false, looks }: Block): Promise<void> {
    const size = { rows: cells.length, columns: Math.max(...cells.map((inRow) => inRow.length)) };
    const chart = await attempt("Nothing was written", () =>
      runAsOneStep(async (context) => {
        const sheet = context.workbook.worksheets.getItemOrNullObject(name);
        await context.sync();
        if (sheet.isNullObject) throw new PortProblem(`There is no sheet “${name}” any more.`);
        const target = findRange(sheet, { row, column, ...size });
        const room = findRange(sheet, {
          row,
          column,
          rows: Math.max(size.rows, reach.rows),
          columns: Math.max(size.columns, reach.columns),
        });
        room.load("formulas");
        sheet.protection.load("protected");
        target.load("format/protection/locked");
        const surroundings = looks && readSurroundings(sheet, { row, column }, looks);
        await context.sync();
        if (sheet.protection.protected && target.format.protection.locked !== false)
          throw new PortProblem(`The sheet “${name}” is protected, and these cells are locked.`);
        const taken = replaces ? undefined : findTaken(room.formulas as unknown[][]);
        if (taken)
          throw new PortProblem(
            `${formatFullAddress(name, row + taken.row, column + taken.column)} already holds something; nothing was written.`,
          );
        const covered = surroundings?.findCovered();
        if (covered !== undefined)
          throw new PortProblem(`The graph would cover “${covered}”; nothing was written. Pick another place.`);
        target.formulas = cells.map((inRow) => Array.from({ length: size.columns }, (_, at) => inRow[at] ?? null));
        await context.sync();
        if (!looks || !surroundings) return undefined;
        return attempt("The cells were written, but not all of their formatting or the graph", async () => {
          const drawn = await dressBlock(sheet, { row, column }, looks, reach.rows, surroundings.listFree());
          drawn?.load("name");
          await context.sync();
          return drawn?.name;
        });
      }),
    );
    if (chart !== undefined) await describeChart(name, chart, looks?.chart?.description ?? "");
  }

  addSheet(name: string, rows: readonly (readonly (string | number)[])[]): Promise<string> {
    return this.makeSheet(name, (sheet) => {
      fillSheet(sheet, rows);
      return sheet.context.sync();
    });
  }

  /** One step of undo; a sheet that could not be filled is of no use and is taken away again. */
  private makeSheet(wantedName: string, fill: (sheet: Excel.Worksheet) => Promise<unknown>): Promise<string> {
    return attempt("No sheet was added", () =>
      runAsOneStep(async (context) => {
        const { worksheets } = context.workbook;
        worksheets.load("items/name");
        await context.sync();
        const name = findFreeName(
          wantedName,
          worksheets.items.map((sheet) => sheet.name),
        );
        const sheet = worksheets.add(name);
        try {
          await fill(sheet);
        } catch (problem) {
          sheet.delete();
          await context.sync();
          throw problem;
        }
        return name;
      }),
    );
  }

  /** A sheet with the points and the graph in words, and on it a chart with logarithmic axes that Excel can edit. */
  async insertChart(graph: DrawnGraph): Promise<void> {
    const chartName = graph.title;
    const sheetName = await this.makeSheet("Graph", async (sheet) => {
      const chart = await addChart(sheet, planChart(sheet, graph));
      chart.name = chartName;
      await sheet.context.sync();
    });
    await describeChart(sheetName, chartName, graph.description);
  }

  insertPicture({ description, png }: DrawnGraph): Promise<void> {
    return attempt("The picture was not put into the sheet", () =>
      Excel.run(async (context) => {
        const range = context.workbook.getSelectedRange();
        range.load("left,top");
        const picture = range.worksheet.shapes.addImage(encodeBase64(png));
        picture.altTextDescription = description;
        await context.sync();
        picture.left = range.left;
        picture.top = range.top;
        await context.sync();
      }),
    );
  }

  openNew(name: string, bytes: Uint8Array): Promise<void> {
    if (this.abilities.newWorkbook === "saves") {
      this.save(name, bytes);
      return Promise.resolve();
    }
    return attempt("The new workbook did not open", () => Excel.createWorkbook(encodeBase64(bytes)));
  }

  findUnbound(): Promise<readonly UnboundSheet[]> {
    return attempt("The formulas could not be looked through", () => Excel.run(findUnboundSheets));
  }

  mend(name: string): Promise<number> {
    return attempt(`“${name}” was not mended`, () => Excel.run((context) => mendSheet(context, name)));
  }

  /** Only an add-in with a shared runtime can be started with a workbook. */
  readonly startWithWorkbook = Office.context.requirements.isSetSupported("SharedRuntime", "1.1")
    ? (): Promise<void> =>
        attempt("The setting was not kept", () => Office.addin.setStartupBehavior(Office.StartupBehavior.load))
    : undefined;
}

type Workbook = Excel.RequestContext["workbook"];

/** An event handler must hand Excel a promise. */
function call(listener: () => void): Promise<void> {
  listener();
  return Promise.resolve();
}

async function subscribe<Arguments>(
  add: (workbook: Workbook) => OfficeExtension.EventHandlerResult<Arguments>,
): Promise<Unsubscribe> {
  const handler = await Excel.run(async (context) => {
    const added = add(context.workbook);
    await context.sync();
    return added;
  });
  return async () => {
    await Excel.run(handler.context, async (context) => {
      handler.remove();
      await context.sync();
    });
  };
}

/** One step of undo where Excel can merge them. */
const runAsOneStep = <Result>(batch: (context: Excel.RequestContext) => Promise<Result>): Promise<Result> =>
  has("1.20") ? Excel.run({ mergeUndoGroup: true }, batch) : Excel.run(batch);

/** Excel's own error as a sentence for a person. */
async function attempt<Result>(failure: string, action: () => Promise<Result>): Promise<Result> {
  try {
    return await action();
  } catch (problem) {
    if (problem instanceof PortProblem) throw problem;
    const reason = problem instanceof Error ? problem.message : String(problem);
    throw new PortProblem(`${failure}: ${reason}`);
  }
}

const findRange = (sheet: Excel.Worksheet, { row, column, rows, columns }: Omit<SelectedArea, "sheet">): Excel.Range =>
  sheet.getRangeByIndexes(row, column, rows, columns);

function findTaken(formulas: readonly (readonly unknown[])[]): { row: number; column: number } | undefined {
  for (const [row, inRow] of formulas.entries())
    for (const [column, entry] of inRow.entries()) if (entry !== "" && entry !== null) return { row, column };
  return undefined;
}

const findFreeName = (wantedName: string, taken: readonly string[]): string => {
  const known = new Set(taken.map((name) => name.toLowerCase()));
  let name = wantedName;
  for (let number = 2; known.has(name.toLowerCase()); number += 1) name = `${wantedName} ${number}`;
  return name;
};

/** Where the words and the chart are beside the points, which take the first three columns. */
const beside = { words: "E1:P1", from: "E2", to: "P30" } as const;

/** Writes the points of a graph, and says which chart to draw of them. */
function planChart(sheet: Excel.Worksheet, { title, description, series, flowUnit }: DrawnGraph): ChartPlan {
  const rows = series.flatMap(({ name, points }) => points.map(([pressure, flow]) => [name, pressure, flow]));
  const [pressures, flows] = [1, 2].map((column) => rows.map((row) => Number(row[column]))) as [number[], number[]];
  fillSheet(sheet, [["series", "Δp, Pa", `q, ${flowUnit}`], ...rows]);
  const figures = sheet.getRangeByIndexes(1, 1, rows.length, 2);
  const formats = [pressures, flows].map((values) => chooseFormat(Math.max(...values)));
  figures.numberFormat = rows.map(() => formats);
  figures.format.columnWidth = 80;
  sheet.getRange("B1:C1").format.horizontalAlignment = "Right";
  const words = sheet.getRange(beside.words);
  words.merge();
  words.format.wrapText = true;
  words.format.verticalAlignment = "Top";
  words.format.rowHeight = 60;
  sheet.getRange("E1").values = [[description]];
  let next = 1;
  const placed = series.map(({ name, points, ...look }) => {
    const first = next;
    next += points.length;
    const [x, y] = [1, 2].map((column) => sheet.getRangeByIndexes(first, column, points.length, 1));
    return { name, look, pressures: x!, flows: y! };
  });
  const ends = { pressureEnds: findAxisEnds(pressures, [1]), flowEnds: findAxisEnds(flows) };
  return { title, flowUnit, series: placed, ...ends, from: beside.from, to: beside.to };
}

/** Four significant digits of the largest figure. */
const chooseFormat = (largest: number): string => {
  const digits = Math.min(6, Math.max(0, 3 - Math.floor(Math.log10(largest))));
  return digits === 0 ? "0" : `0.${"0".repeat(digits)}`;
};

function fillSheet(sheet: Excel.Worksheet, rows: readonly (readonly (string | number)[])[]): void {
  const columns = Math.max(...rows.map((row) => row.length));
  const range = sheet.getRangeByIndexes(0, 0, rows.length, columns);
  // Texts that begin with = are texts here, not formulas.
  range.values = rows.map((row) => Array.from({ length: columns }, (_, at) => guardText(row[at] ?? "")));
  sheet.getRangeByIndexes(0, 0, 1, columns).format.font.bold = true;
  range.format.wrapText = true;
  range.format.verticalAlignment = "Top";
  range.format.columnWidth = 160;
  sheet.activate();
}

const guardText = (entry: string | number): string | number =>
  typeof entry === "string" && /^[=+\-@']/.test(entry) ? `'${entry}` : entry;

function encodeBase64(bytes: Uint8Array): string {
  let text = "";
  for (let at = 0; at < bytes.length; at += 0x8000) text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(text);
}
