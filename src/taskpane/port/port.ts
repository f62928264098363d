import type { CellsContent } from "../../views/desk/cells";
import type { Marker } from "../../workbook/graph/line-style";
import type { cellLooks } from "../../workbook/looks";

/** A rectangle of cells on one sheet, zero-based. */
export interface SelectedArea {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

/** The workbook as its program hands it over: the whole file, or where that is not possible its cells. */
export type WorkbookContent = { readonly name: string } & (
  { readonly bytes: Uint8Array } | { readonly cells: CellsContent }
);

/** Cells to write from one place on: formulas begin with "=", null leaves a cell as it is. */
export interface Block {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly cells: readonly (readonly (string | number | null)[])[];
  /** How far results will spill from the first cell, itself included; nothing may be in the way. */
  readonly reach: { readonly rows: number; readonly columns: number };
  /** True for values that take the place of others, which a person asked for. */
  readonly replaces?: boolean;
  readonly looks?: BlockLooks;
}

/** Cells of a block, counted from its first one. */
export interface BlockArea {
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

export interface AreaLook extends BlockArea {
  readonly look: keyof typeof cellLooks;
  /** A number format for all cells, or one for each row. */
  readonly format?: string | readonly string[];
}

/** How a block looks, and a chart of its cells. Only Excel gives looks; nothing outside the block changes, nor does a column or a row of other cells. */
export interface BlockLooks {
  readonly areas: readonly AreaLook[];
  /** In points; words that would still be cut off become smaller. */
  readonly widths: readonly { readonly column: number; readonly points: number; readonly shrinks: boolean }[];
  readonly chart?: BlockChart;
}

/** A chart that follows the cells of its block. */
export interface BlockChart {
  readonly title: string;
  readonly description: string;
  readonly flowUnit: string;
  readonly area: BlockArea;
  readonly series: readonly (SeriesLook & {
    readonly name: string;
    readonly pressures: BlockArea;
    readonly flows: BlockArea;
  })[];
}

/** A sheet on which cells of the add-in show #NAME? or are stored as text. */
export interface UnboundSheet {
  readonly name: string;
  readonly count: number;
  readonly isProtected: boolean;
}

/** What the program around the pane can do; what it cannot is a sentence for the person. */
export interface Abilities {
  /** Whether what is written can be taken back step by step. */
  readonly canUndo: boolean;
  /** Whether a block is taken back whole, looks and chart included. */
  readonly undoesAtOnce: boolean;
  readonly canDraw: boolean;
  /** How a workbook that was made reaches the person. */
  readonly newWorkbook: "opens" | "saves";
  readonly lacks: readonly string[];
}

export interface DrawnGraph {
  readonly title: string;
  readonly description: string;
  readonly png: Uint8Array;
  readonly series: readonly GraphSeries[];
  readonly flowUnit: string;
}

export interface GraphSeries extends SeriesLook {
  readonly name: string;
  readonly points: readonly (readonly [pressure: number, flow: number])[];
}

/** How a series is drawn; a limit has its name beside it. */
export interface SeriesLook {
  readonly kind: "readings" | "unused" | "line" | "limit";
  readonly colour: string;
  /** Of the readings; each has a dash pattern of its own for the line. */
  readonly marker: Marker;
  /** The side of a limit on which there is room for its name. */
  readonly labelled?: "Left" | "Right" | "Top";
}

/** Ends a subscription. */
export type Unsubscribe = () => Promise<void>;

/**
 * What the pane needs of the program that holds the workbook: Excel, or a file from this computer. Whatever cannot be done is refused by a PortProblem,
 * and then nothing has been written.
 */
export interface WorkbookPort {
  readonly abilities: Abilities;
  read(): Promise<WorkbookContent>;
  /** The selected cells; undefined where something else is selected, such as a chart. */
  findSelection(): Promise<SelectedArea | undefined>;
  onSelection(listener: () => void): Promise<Unsubscribe>;
  /** Calls back after cells or sheets have changed, by whomever; nothing tells of defined names. */
  onChange(listener: () => void): Promise<Unsubscribe>;
  select(address: string): Promise<void>;
  write(block: Block): Promise<void>;
  /** Adds a sheet of texts and numbers, the first row in bold; gives its name. */
  addSheet(name: string, rows: readonly (readonly (string | number)[])[]): Promise<string>;
  insertChart(graph: DrawnGraph): Promise<void>;
  insertPicture(graph: DrawnGraph): Promise<void>;
  /** Opens or saves a workbook that was made; the one at hand stays as it is. */
  openNew(name: string, bytes: Uint8Array): Promise<void>;
  findUnbound(): Promise<readonly UnboundSheet[]>;
  /**
   * Enters the add-in's formulas of a sheet once more; gives their number. A sheet protected without a password is opened and protected again with the same
   * options; one with a password is refused.
   */
  mend(sheet: string): Promise<number>;
  /** Makes the add-in start with this workbook; undefined where the program cannot. */
  readonly startWithWorkbook: (() => Promise<void>) | undefined;
}

/** Something that could not be done, in words for a person. */
export class PortProblem extends Error {}
