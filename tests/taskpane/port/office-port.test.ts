import { OfficeMockObject } from "office-addin-mock";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { OfficePort } from "../../../src/taskpane/port/office-port";
import type { Block } from "../../../src/taskpane/port/port";

/** What the workbook behind the mock holds, and what happened to it. */
interface Workbook {
  formulas: unknown[][];
  values: unknown[][];
  isProtected: boolean;
  isLocked: boolean;
  hasPassword: boolean;
  /** Refuses to tell of renamed sheets. */
  isDeaf: boolean;
  readonly events: string[];
  /** The call of sync that fails, counted from 1; 0 for none. */
  failsAt: number;
  syncs: number;
  /** Whether a formula is refused where the cells were cleared. */
  refusesCleared: boolean;
}

let workbook: Workbook;

type Mock = OfficeMockObject & Record<string, unknown>;

/**
 * Excel as Microsoft's mock presents it: a property that was not loaded and synchronised reads as an error text. Collections are ours, because
 * the mock has none; their sheets are again the mock's.
 */
function createExcel() {
  const range = () => ({
    rowIndex: 4,
    columnIndex: 1,
    rowCount: 2,
    columnCount: 3,
    formulas: workbook.formulas,
    values: workbook.values,
    format: {
      protection: { locked: workbook.isLocked },
      font: { bold: false },
      wrapText: false,
      verticalAlignment: "",
      columnWidth: 0,
    },
    worksheet: { name: "Readings" },
    select: () => workbook.events.push("select"),
  });
  const mocked: Mock[] = [];
  // What is known without loading: whether there is such an object at all.
  const mock = (data: object, isNullObject = false): Mock => {
    const made = Object.assign(new OfficeMockObject(data as never) as Mock, { isNullObject });
    mocked.push(made);
    return made;
  };
  const cells: Mock[] = [];
  const sheet = (name: string) => {
    const made = mock(
      {
        name,
        protection: {
          protected: workbook.isProtected,
          options: { allowSort: true },
          unprotect: () => workbook.events.push("unprotect"),
          protect: (options: { allowSort: boolean }) => workbook.events.push(`protect ${String(options.allowSort)}`),
        },
        getRangeByIndexes: (row: number, column: number, rows: number, columns: number) => {
          const clear = (what: string) =>
            workbook.events.push(`area ${row},${column} ${rows} × ${columns}`, `clear ${what}`);
          const made = mock({ ...range(), clear });
          cells.push(made);
          return made;
        },
        getUsedRangeOrNullObject: () => mock(range()),
        getCell: (row: number, column: number) => {
          const made = mock({ formulas: [[""]] });
          workbook.events.push(`cell ${row},${column}`);
          cells.push(made);
          return made;
        },
        activate: () => workbook.events.push("activate"),
        delete: () => workbook.events.push("delete"),
      },
      name === "Gone",
    );
    return Object.assign(made, { context });
  };
  const context = mock({
    workbook: {
      getSelectedRange: () => mock(range()),
      onSelectionChanged: { add: (handler: () => void) => listen("selection", handler) },
      worksheets: {
        load(this: Mock) {
          const readings = sheet("Readings");
          readings.load("name");
          this["items"] = [readings];
        },
        getItemOrNullObject: sheet,
        getItem: sheet,
        add: (name: string) => {
          workbook.events.push(`add ${name}`);
          return sheet(name);
        },
        onChanged: { add: (handler: () => void) => listen("change", handler) },
        onAdded: { add: (handler: () => void) => listen("added", handler) },
        onDeleted: { add: (handler: () => void) => listen("deleted", handler) },
        onNameChanged: {
          add: (handler: () => void) => {
            if (workbook.isDeaf) throw new Error("the host is busy");
            return listen("renamed", handler);
          },
        },
      },
    },
    async sync() {
      workbook.syncs += 1;
      const isRefused = workbook.hasPassword && workbook.events.at(-1) === "unprotect";
      const isCleared = workbook.events.at(-2) === "clear Contents" && cells.at(-1)?.["values"] === undefined;
      if (workbook.syncs === workbook.failsAt || isRefused || (workbook.refusesCleared && isCleared))
        throw new Error("the host refused");
      await Promise.all(mocked.filter((one) => one !== context).map((one) => one.sync()));
    },
  });
  const listen = (name: string, handler: () => void) => {
    workbook.events.push(`listen ${name}`);
    return { context, handler, remove: () => workbook.events.push(`remove ${name}`) };
  };
  const run = (...given: unknown[]) => (given.at(-1) as (context: Mock) => Promise<unknown>)(context);
  return { excel: { run, createWorkbook: () => Promise.resolve() }, cells };
}

let cells: Mock[];

beforeEach(() => {
  workbook = {
    formulas: [
      ["", "", ""],
      ["", "", ""],
    ],
    values: [
      ["", "", ""],
      ["", "", ""],
    ],
    isProtected: false,
    isLocked: false,
    hasPassword: false,
    isDeaf: false,
    events: [],
    failsAt: 0,
    syncs: 0,
    refusesCleared: false,
  };
  const made = createExcel();
  ({ cells } = made);
  vi.stubGlobal("Excel", made.excel);
  vi.stubGlobal("Office", {
    context: {
      requirements: { isSetSupported: () => true },
      document: { mode: "readWrite", url: "https://files.example/Ash%20Lodge.xlsx" },
    },
    DocumentMode: { ReadOnly: "readOnly" },
    FileType: { Compressed: "compressed" },
    AsyncResultStatus: { Succeeded: "succeeded" },
  });
});
afterEach(() => {
  vi.unstubAllGlobals();
});

const open = (): OfficePort => new OfficePort(() => undefined);

const block: Block = {
  sheet: "Readings",
  row: 4,
  column: 1,
  cells: [["Δp, Pa", "=STILLAIR.METHODVERSION()"], [50]],
  reach: { rows: 2, columns: 2 },
};

describe("the selection", () => {
  it("is read after it was loaded, and is none where the host has no cells selected", async () => {
    expect(await open().findSelection()).toEqual({ sheet: "Readings", row: 4, column: 1, rows: 2, columns: 3 });
    workbook.failsAt = workbook.syncs + 1;
    expect(await open().findSelection()).toBeUndefined();
  });

  it("is heard until the pane ends it", async () => {
    const end = await open().onSelection(() => undefined);
    await end();
    expect(workbook.events).toEqual(["listen selection", "remove selection"]);
    const endChanges = await open().onChange(() => undefined);
    await endChanges();
    expect(workbook.events.filter((event) => event.startsWith("listen")).length).toBe(5);
    expect(workbook.events.filter((event) => event.startsWith("remove")).length).toBe(5);
  });

  it("is told whole or not at all: one refused event ends those that were begun", async () => {
    workbook.isDeaf = true;
    await expect(open().onChange(() => undefined)).rejects.toThrow("the host is busy");
    expect(workbook.events).toEqual([
      ...["listen change", "listen added", "listen deleted"],
      ...["remove change", "remove added", "remove deleted"],
    ]);
  });

  it("names a sheet that was deleted meanwhile, and an address that is none", async () => {
    await expect(open().select("Gone!A1")).rejects.toThrow("There is no sheet “Gone” any more.");
    await expect(open().select("whole column")).rejects.toThrow("is not a cell or an area");
    await open().select("Readings!B5");
    expect(workbook.events).toEqual(["activate", "select"]);
  });
});

describe("writing", () => {
  it("puts all cells in by one assignment; null leaves what a short row does not fill", async () => {
    await open().write(block);
    const written = cells.filter(
      (cell) => Array.isArray(cell["formulas"]) && (cell["formulas"] as unknown[][])[0]?.[0] === "Δp, Pa",
    );
    expect(written.map((cell) => cell["formulas"] as unknown)).toEqual([
      [
        ["Δp, Pa", "=STILLAIR.METHODVERSION()"],
        [50, null],
      ],
    ]);
  });

  it("overwrites nothing: the first cell in the way is named", async () => {
    workbook.formulas = [
      ["", "", ""],
      ["", "=A1", ""],
    ];
    await expect(open().write(block)).rejects.toThrow("Readings!C6 already holds something; nothing was written.");
    expect(cells.every((cell) => cell["formulas"] !== block.cells)).toBe(true);
  });

  it("leaves locked cells of a protected sheet alone", async () => {
    workbook.isProtected = true;
    workbook.isLocked = true;
    await expect(open().write(block)).rejects.toThrow("protected");
    workbook.isLocked = false;
    await expect(open().write(block)).resolves.toBeUndefined();
  });

  it.each([1, 2, 3])("refused by the host at step %i, ends with its reason", async (step) => {
    workbook.failsAt = step;
    await expect(open().write(block)).rejects.toThrow("Nothing was written: the host refused");
  });

  it("a sheet that cannot be filled is taken away again", async () => {
    expect(await open().addSheet("readings", [["cell"], ["Results!B4"]])).toBe("readings 2");
    workbook.events.length = 0;
    workbook.failsAt = workbook.syncs + 2;
    await expect(open().addSheet("Trace", [["cell"]])).rejects.toThrow("No sheet was added");
    expect(workbook.events).toEqual(["add Trace", "activate", "delete"]);
  });
});

describe("mending", () => {
  beforeEach(() => {
    workbook.formulas = [
      ["=_xldudf_STILLAIR_METHODVERSION()", "=STILLAIR.FLOORAREA(A1:B4)", 3],
      ["=A1", "", ""],
    ];
    workbook.values = [
      ["#NAME?", "#NAME?", 3],
      ["#NAME?", "", ""],
    ];
  });

  it("finds the add-in's own formulas and enters them once more", async () => {
    expect(await open().findUnbound()).toEqual([{ name: "Readings", count: 2, isProtected: false }]);
    expect(await open().mend("Readings")).toBe(2);
    expect(workbook.events).toEqual(["cell 4,1", "cell 4,2"]);
    expect(cells.map((cell) => cell["formulas"] as unknown)).toEqual([
      [["=STILLAIR.METHODVERSION()"]],
      [["=STILLAIR.FLOORAREA(A1:B4)"]],
    ]);
  });

  it("protects a sheet again with the options it had, whether or not the formulas went in", async () => {
    workbook.isProtected = true;
    await open().mend("Readings");
    expect(workbook.events).toEqual(["unprotect", "cell 4,1", "cell 4,2", "protect true"]);
    workbook.events.length = 0;
    workbook.failsAt = workbook.syncs + 3;
    await expect(open().mend("Readings")).rejects.toThrow("“Readings” was not mended: the host refused");
    expect(workbook.events.at(-1)).toBe("protect true");
  });

  it("enters an array formula of another program as one, where Excel changes no part of it", async () => {
    const part = "=_xldudf_STILLAIR_BASELINEPRESSURE(A1:A3)";
    workbook.formulas = [
      [part, part, "=STILLAIR.METHODVERSION()"],
      [part, part, ""],
    ];
    workbook.values = [
      ["#NAME?", "#NAME?", "#NAME?"],
      ["#NAME?", "#NAME?", ""],
    ];
    // One to read, then the first formula is refused.
    workbook.failsAt = workbook.syncs + 2;
    await open().mend("Readings");
    expect(workbook.events).toEqual(["cell 4,1", "area 4,1 2 × 2", "clear Contents", "cell 4,1", "cell 4,3"]);
  });

  it("says that a sheet is left unprotected where Excel refuses to protect it again", async () => {
    workbook.isProtected = true;
    // One to read, one to unprotect, two formulas.
    workbook.failsAt = workbook.syncs + 5;
    await expect(open().mend("Readings")).rejects.toThrow("The sheet “Readings” is left unprotected");
  });

  it("keeps a formula that is refused after its block was cleared, and names it", async () => {
    const part = "=_xldudf_STILLAIR_BASELINEPRESSURE(A1:A3)";
    workbook.formulas = [[part, part]];
    workbook.values = [["#NAME?", "#NAME?"]];
    // One to read, the formula alone, the clearing, the formula of the block.
    workbook.failsAt = workbook.syncs + 2;
    workbook.refusesCleared = true;
    await expect(open().mend("Readings")).rejects.toThrow(
      "Readings!B5:C5 was cleared, and Excel refused its formula: the host refused. Enter it again there: =STILLAIR.BASELINEPRESSURE(A1:A3)",
    );
    expect(cells.at(-1)!["values"]).toEqual([["'=STILLAIR.BASELINEPRESSURE(A1:A3)"]]);
  });

  it("names a sheet with a password and leaves it", async () => {
    workbook.isProtected = true;
    workbook.hasPassword = true;
    await expect(open().mend("Readings")).rejects.toThrow("protected with a password");
    expect(workbook.events).toEqual(["unprotect"]);
  });
});

describe("starting with the workbook", () => {
  it("is kept in the workbook where the add-in has a shared runtime, and not offered elsewhere", async () => {
    const setStartupBehavior = vi.fn(() => Promise.resolve());
    Object.assign(Office, { addin: { setStartupBehavior }, StartupBehavior: { load: "Load" } });
    await open().startWithWorkbook?.();
    expect(setStartupBehavior).toHaveBeenCalledExactlyOnceWith("Load");
    Office.context.requirements.isSetSupported = (set) => set !== "SharedRuntime";
    expect(open().startWithWorkbook).toBeUndefined();
  });
});

describe("reading the file", () => {
  const slices = [new Uint8Array([80, 75]), new Uint8Array([3, 4, 5])];
  const handOver = (refuses: "nothing" | "the file" | "a slice") => {
    const closed = vi.fn((done: (result: object) => void) => done({ status: "succeeded" }));
    const file = {
      size: 5,
      sliceCount: 2,
      getSliceAsync: (index: number, done: (result: object) => void) =>
        done(
          refuses === "a slice" && index === 1
            ? { status: "failed", error: { message: "no slice" } }
            : { status: "succeeded", value: { data: [...(slices[index] ?? [])], size: slices[index]?.length } },
        ),
      closeAsync: closed,
    };
    Object.assign(Office.context.document, {
      getFileAsync: (_: string, __: object, done: (result: object) => void) =>
        done(
          refuses === "the file"
            ? { status: "failed", error: { message: "not here" } }
            : { status: "succeeded", value: file },
        ),
    });
    return closed;
  };

  it.each([
    ["https://files.example/Ash%20Lodge.xlsx", "Ash Lodge.xlsx"],
    ["https://files.example/100%25%20done%.xlsx?web=1", "100%25%20done%.xlsx"],
    ["https://files.example/Doc.aspx?sourcedoc=1&file=Ash%20Lodge.xlsx&action=default", "Ash Lodge.xlsx"],
    ["C:\\Jobs\\Ash Lodge 100% done.xlsx", "Ash Lodge 100% done.xlsx"],
    ["/Users/Jo/50%20.xlsx", "50%20.xlsx"],
    ["", "Workbook.xlsx"],
  ])("names the workbook at %s", async (url, name) => {
    handOver("nothing");
    Object.assign((globalThis as unknown as { Office: { context: { document: object } } }).Office.context.document, {
      url,
    });
    expect((await open().read()).name).toBe(name);
  });

  it("joins the slices and closes the file", async () => {
    const closed = handOver("nothing");
    expect(await open().read()).toEqual({ name: "Ash Lodge.xlsx", bytes: new Uint8Array([80, 75, 3, 4, 5]) });
    expect(closed).toHaveBeenCalledOnce();
  });

  it.each(["the file", "a slice"] as const)(
    "reads the cells where %s is refused, and leaves no file open",
    async (refused) => {
      const closed = handOver(refused);
      vi.stubGlobal("Excel", createCells());
      expect(await open().read()).toEqual({
        name: "Ash Lodge.xlsx",
        cells: {
          sheets: [
            {
              name: "Readings",
              isVisible: true,
              hiddenRows: [],
              cells: [
                { row: 0, column: 0, value: "Δp", formula: "", format: "General" },
                {
                  row: 0,
                  column: 1,
                  value: 1,
                  formula: "=SEQUENCE(2)",
                  format: "0.0",
                  spill: { top: 0, left: 1, bottom: 1, right: 1 },
                },
                // Some versions repeat the formula in the cells that it fills.
                { row: 1, column: 1, value: 2, formula: "", format: "0.0" },
              ],
            },
          ],
          // A name may be a constant, and may belong to one sheet.
          names: [
            { name: "Volume", sheet: undefined, formula: "=Readings!$A$1" },
            { name: "Rate", sheet: undefined, formula: "=0.6" },
            { name: "First", sheet: "Readings", formula: "=Readings!$A$2" },
          ],
          tables: [],
        },
      });
      expect(closed).toHaveBeenCalledTimes(refused === "the file" ? 0 : 1);
    },
  );
});

/** A workbook of one sheet with a formula that spills; what is loaded is of no interest here. */
function createCells() {
  const load = (): void => undefined;
  const place = { rowIndex: 0, columnIndex: 0, rowCount: 2, columnCount: 2, isNullObject: false, load };
  const used = {
    ...place,
    formulas: [
      ["Δp", "=SEQUENCE(2)"],
      ["", "=SEQUENCE(2)"],
    ],
    values: [
      ["Δp", 1],
      ["", 2],
    ],
    numberFormat: [
      ["General", "0.0"],
      ["General", "0.0"],
    ],
  };
  const sheet = {
    name: "Readings",
    visibility: "Visible",
    names: { items: [{ name: "First", formula: "=Readings!$A$2" }], load },
    getUsedRangeOrNullObject: () => used,
    getCell: (row: number) => ({
      getSpillingToRangeOrNullObject: () => ({ ...place, columnIndex: 1, columnCount: 1, isNullObject: row > 0 }),
    }),
  };
  const names = [
    { name: "Volume", formula: "=Readings!$A$1" },
    { name: "Rate", formula: "=0.6" },
  ];
  const context = {
    workbook: {
      worksheets: { items: [sheet], load },
      names: { items: names, load },
      tables: { items: [], load },
    },
    sync: () => Promise.resolve(),
  };
  return { run: (batch: (given: typeof context) => Promise<unknown>) => batch(context) };
}
