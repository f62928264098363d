import { Pane } from "../../src/taskpane/pane";
import { Session } from "../../src/taskpane/session";
import { Stopped } from "../../src/views/conversation";

/** A workbook whose only content is a version, which a test changes as a person would, with the pane over it. */
class Stage {
  version = 1;
  reads = 0;
  readonly done: string[] = [];
  cell = "A1";
  /** How many rows are selected from that cell on. */
  rows = 1;
  unbound: { name: string; count: number; isProtected: boolean }[] = [];
  /** What the next reading waits for. */
  hold: Promise<unknown> = Promise.resolve();
  readonly pane: Pane;
  private readonly listeners = new Map<string, () => void>();
  private held = 0;
  private endOfReview: { resolve: (answer: unknown) => void; reject: (problem: Error) => void } | undefined;

  constructor(readonly hears = true) {
    const session = new Session(this.port as never, this.desk as never, this.reviewer as never);
    const part = (): HTMLElement => document.createElement("div");
    this.pane = new Pane(document, session, { home: part(), functions: part() });
  }

  /** A person changes the workbook. */
  change(): void {
    this.version += 1;
    this.listeners.get("change")?.();
  }

  select(cell: string): void {
    this.cell = cell;
    this.listeners.get("selection")?.();
  }

  endReview(groups: readonly unknown[] = []): void {
    this.endOfReview?.resolve({
      answer: {
        outcome: "findings",
        basis: `of version ${this.held}`,
        counts: {},
        groups,
        checked: [],
        beyondPrograms: [],
      },
    });
  }

  private readonly listen = (name: string) => (listener: () => void) => {
    if (!this.hears) return Promise.reject(new Error("a cell is being edited"));
    this.listeners.set(name, listener);
    return Promise.resolve(() => {
      this.listeners.delete(name);
      return Promise.resolve();
    });
  };

  private readonly port = {
    abilities: { canUndo: true, undoesAtOnce: true, canDraw: true, newWorkbook: "opens", lacks: [] },
    read: async () => {
      this.reads += 1;
      const bytes = this.version;
      await this.hold;
      return { name: "book.xlsx", bytes };
    },
    findSelection: () =>
      Promise.resolve({ sheet: "S", row: Number(this.cell.slice(1)) - 1, column: 0, rows: this.rows, columns: 1 }),
    onSelection: this.listen("selection"),
    onChange: this.listen("change"),
    // As Excel does, it tells of a selection after it was made.
    select: (address: string) => {
      setTimeout(() => this.select(address.split("!")[1]!));
      return Promise.resolve();
    },
    findUnbound: () => Promise.resolve(this.unbound),
    startWithWorkbook: () => {
      this.done.push("starts with the workbook");
      return Promise.resolve();
    },
    addSheet: (name: string, rows: readonly (readonly string[])[]) => {
      this.done.push(...rows.map((row) => row.slice(0, 3).join(", ")));
      return Promise.resolve(name);
    },
    insertChart: ({ series }: { series: { points: number[][] }[] }) => {
      this.done.push(`chart of ${String(series[0]?.points[0]?.[1])}`);
      return Promise.resolve();
    },
    openNew: (_: string, bytes: number) => {
      this.done.push(`new workbook of ${bytes}`);
      return Promise.resolve();
    },
  };

  private readonly desk = {
    ask: (name: string, given: readonly unknown[]): Promise<unknown> => Promise.resolve(this.answer(name, given)),
  };

  private answer(name: string, given: readonly unknown[]): unknown {
    if (name === "open") {
      this.held = given[2] as number;
      const result = { address: "S!A1", label: "n50", value: this.held, unit: "1/h" };
      const verdict = { address: "S!A1", word: "pass", result, tables: [] };
      const none = { sheets: [], summary: [], differences: [], notEvaluated: [], cautions: [] };
      return { name: "book.xlsx", verdicts: [verdict], formulaCells: 1, evaluatedCells: 1, graphs: ["test"], ...none };
    }
    if (name === "trace") {
      const none = { kind: "", withNumbers: "", details: [], members: [], table: [], branches: [] };
      const first = { address: given[1], title: `Trace of ${String(given[1])}`, value: "", ...none };
      const branches = [{ role: "", step: 1 }];
      const second = { ...first, address: "S!A8", title: "What it reads" };
      return { steps: [{ ...first, branches }, second], inputs: [] };
    }
    if (name === "listInputs")
      return [{ sheet: 0, row: 0, column: 0, address: "S!A1", label: "Limit", shown: "6", unit: "", choices: [] }];
    if (name === "drawGraph") {
      const svg = '<svg xmlns="http://www.w3.org/2000/svg" width="10" height="10"/>';
      const reading = { line: "test", pressure: 50, flow: this.held, isUsed: true, address: "S!A1" };
      const line = { name: "test", colour: "#000000", marker: "circle", ends: [reading, reading] };
      return { title: "test", svg, readings: [reading], lines: [line], limits: [], flowUnit: "m³/h", description: "" };
    }
    if (name === "makeIssueCopy") return { name: "issued.xlsx", bytes: this.held, notes: [] };
    throw new Error(name);
  }

  private readonly reviewer = {
    stop: (words: string) => this.endOfReview?.reject(new Stopped(words)),
    ask: () => new Promise((resolve, reject) => (this.endOfReview = { resolve, reject })),
  };
}

Object.assign(globalThis, { Stage });
