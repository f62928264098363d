import { formatFullAddress } from "../../workbook/book/address";
import { parseSelected } from "./addresses";
import type { Conversation } from "../../views/conversation";
import { Turns } from "../turns";
import { type Block, PortProblem, type SelectedArea, type UnboundSheet, type WorkbookPort } from "./port";

/** The number under which the desk holds the file; the pane's own workbook has another. */
const deskId = 2;

/**
 * A workbook file that a person opened in the pane outside Excel: the pane's tools work on a copy in memory, which can be saved. The pictures of Excel
 * itself, charts and shapes, need Excel.
 */
export class FilePort implements WorkbookPort {
  readonly abilities = {
    canUndo: false,
    undoesAtOnce: false,
    canDraw: false,
    newWorkbook: "saves",
    lacks: ["Only Excel puts charts and pictures into the sheet, and gives cells their looks."],
  } as const;
  readonly startWithWorkbook = undefined;
  private selected: SelectedArea | undefined;
  private readonly selectionListeners = new Set<() => void>();
  private readonly changeListeners = new Set<() => void>();
  /** Changes follow one another: each begins with what the one before has left. */
  private readonly turns = new Turns();

  constructor(
    private name: string,
    private bytes: Uint8Array,
    private readonly desk: Conversation,
    private readonly save: (name: string, bytes: Uint8Array) => void,
  ) {}

  read() {
    return Promise.resolve({ name: this.name, bytes: this.bytes });
  }

  findSelection() {
    return Promise.resolve(this.selected);
  }

  onSelection = (listener: () => void) => subscribe(this.selectionListeners, listener);

  onChange = (listener: () => void) => subscribe(this.changeListeners, listener);

  select(address: string): Promise<void> {
    this.selected = parseSelected(address);
    for (const listener of this.selectionListeners) listener();
    return this.selected
      ? Promise.resolve()
      : Promise.reject(new PortProblem(`“${address}” is not a cell or an area.`));
  }

  write(block: Block): Promise<void> {
    return this.turns.take(() => this.writeBlock(block));
  }

  private async writeBlock({ sheet, row, column, cells, reach, replaces = false }: Block): Promise<void> {
    const entries = cells.flatMap((inRow, down) =>
      inRow.flatMap((entry, right) =>
        entry === null ? [] : [{ address: formatFullAddress(sheet, row + down, column + right), entry }],
      ),
    );
    await this.open();
    if (!replaces) {
      const rows = Math.max(cells.length, reach.rows);
      const columns = Math.max(reach.columns, ...cells.map((inRow) => inRow.length));
      await this.refuseTaken(formatFullAddress(sheet, row, column), rows, columns);
    }
    await this.keep(await this.desk.ask("type", [deskId, entries]));
  }

  /** A result of the same size says what would be in its way. */
  private async refuseTaken(address: string, rows: number, columns: number): Promise<void> {
    const { inTheWay } = await this.desk.ask("preview", [deskId, address, `=SEQUENCE(${rows},${columns})`]);
    if (inTheWay[0]) throw new PortProblem(`${inTheWay[0]} already holds something; nothing was written.`);
  }

  addSheet(name: string, rows: readonly (readonly (string | number)[])[]): Promise<string> {
    return this.turns.take(async () => {
      await this.open();
      const { bytes, sheetName } = await this.desk.ask("addSheet", [deskId, name, rows]);
      await this.keep(bytes);
      return sheetName;
    });
  }

  insertChart = () => Promise.reject(new PortProblem("Only Excel can put a chart into the sheet."));
  insertPicture = () => Promise.reject(new PortProblem("Only Excel can put a picture into the sheet."));

  openNew(name: string, bytes: Uint8Array): Promise<void> {
    this.save(name, bytes);
    return Promise.resolve();
  }

  async findUnbound(): Promise<readonly UnboundSheet[]> {
    const calls = await this.turns.take(async () => {
      await this.open();
      return this.desk.ask("listUnbound", [deskId]);
    });
    return [...new Set(calls.map(({ sheet }) => sheet))].map((name) => ({
      name,
      count: calls.filter(({ sheet }) => sheet === name).length,
      isProtected: false,
    }));
  }

  mend(sheet: string): Promise<number> {
    return this.turns.take(async () => {
      await this.open();
      const calls = (await this.desk.ask("listUnbound", [deskId])).filter((call) => call.sheet === sheet);
      const entries = calls.map(({ address, formula }) => ({ address, entry: formula }));
      await this.keep(await this.desk.ask("type", [deskId, entries]));
      return calls.length;
    });
  }

  /** The workbook as it is now, to be saved. */
  saveCopy = (): void => this.save(this.name, this.bytes);

  private async open(): Promise<void> {
    await this.desk.ask("open", [deskId, this.name, this.bytes]);
  }

  private async keep(bytes: Uint8Array): Promise<void> {
    this.bytes = bytes;
    await this.desk.ask("close", [deskId]);
    for (const listener of this.changeListeners) listener();
  }
}

function subscribe(listeners: Set<() => void>, listener: () => void): Promise<() => Promise<void>> {
  listeners.add(listener);
  return Promise.resolve(() => {
    listeners.delete(listener);
    return Promise.resolve();
  });
}
