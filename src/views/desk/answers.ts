import type { Finding, Marker } from "../../workbook/index";

/** A cell, zero-based, as a view names it to the desk. */
export interface CellPlace {
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
}

/** A figure with what its sheet calls it. `address` is the cell to click; "" for a figure written into a formula. */
export interface Figure {
  readonly address: string;
  readonly label: string;
  readonly value: number;
  readonly unit: string;
}

/** One row of a table of validity checks. */
export interface Condition {
  readonly check: string;
  readonly symbol: string;
  readonly measured: string;
  readonly limit: string;
  readonly unit: string;
  /** "met", "not met", "cannot be judged". */
  readonly outcome: string;
  readonly isBinding: boolean;
  readonly clause: string;
  readonly advice: string;
}

/** The checks of one run, with the cell of their table. */
export interface ConditionTable {
  readonly address: string;
  readonly title: string;
  readonly conditions: readonly Condition[];
}

/** A verdict that the add-in gives, with what it judged. */
export interface VerdictAnswer {
  readonly address: string;
  /** As the cell shows it; "" while nothing is tested yet. */
  readonly word: string;
  readonly result: Figure | undefined;
  readonly limit: Figure | undefined;
  /** The limits of the result, from its expanded uncertainty: result·exp(±U/result). */
  readonly interval: readonly [lower: number, upper: number] | undefined;
  /** The confidence level of the interval, a fraction; undefined where the formulas do not tell it. */
  readonly confidence: number | undefined;
  readonly tables: readonly ConditionTable[];
}

/** What a workbook says, as recomputed. */
export interface WorkbookAnswer {
  readonly name: string;
  readonly sheets: readonly { readonly name: string; readonly isVisible: boolean }[];
  readonly verdicts: readonly VerdictAnswer[];
  readonly summary: readonly { readonly label: string; readonly text: string; readonly unit: string }[];
  readonly formulaCells: number;
  readonly evaluatedCells: number;
  readonly differences: readonly { readonly address: string; readonly stored: string; readonly computed: string }[];
  readonly notEvaluated: readonly { readonly address: string; readonly reason: string }[];
  readonly cautions: readonly string[];
  /** Of an issue copy: when it was issued, and by which method. */
  readonly issued: { readonly day: string; readonly methodVersion: string; readonly fingerprint: string } | undefined;
  readonly graphs: readonly string[];
}

/** Findings with one cause: the one that names it, and where else it shows. */
export interface FindingGroup {
  readonly first: Finding;
  /** The worst of them all. */
  readonly severity: Finding["severity"];
  readonly turnsVerdict: boolean;
  /** What the sheet calls the figure at the place of the first: name, symbol, unit; "" if it says nothing. */
  readonly figure: string;
  /** Further places of the same kind, cells that touch as one range. */
  readonly places: readonly string[];
  /** Findings of other kinds that follow. */
  readonly related: readonly Finding[];
}

export interface ReviewAnswer {
  readonly outcome: "nothing found" | "findings" | "not fully read";
  readonly basis: string;
  readonly counts: { readonly error: number; readonly warning: number; readonly note: number };
  readonly groups: readonly FindingGroup[];
  /** What was checked, with counts of what is right. */
  readonly checked: readonly string[];
  /** What no program can find. */
  readonly beyondPrograms: readonly string[];
}

/** One step of a trace: a cell, or cells read together. */
export interface TraceStep {
  readonly address: string;
  readonly title: string;
  readonly kind: string;
  readonly value: string;
  /** The formula with the values of the cells it reads put in, and its result; "" where that says nothing. */
  readonly withNumbers: string;
  readonly details: readonly (readonly [name: string, text: string])[];
  readonly members: readonly { readonly address: string; readonly value: string }[];
  /** The rows of the table that the cell's function gives. */
  readonly table: readonly (readonly string[])[];
  readonly branches: readonly { readonly role: string; readonly step: number }[];
}

export interface TraceAnswer {
  readonly steps: readonly TraceStep[];
  readonly inputs: readonly string[];
}

/** A sheet as HTML that this project wrote, with the style sheet for it. */
export interface SheetAnswer {
  /** What an address of its cells begins with: "Results!", "'Air leakage graph'!". */
  readonly prefix: string;
  /** The id of the cell to begin with; "" for none. */
  readonly chosen: string;
  readonly html: string;
  readonly css: string;
}

export interface GraphAnswer {
  readonly title: string;
  readonly svg: string;
  /** The readings in the order of the drawing's marks, each with its cell if the formulas say where it is. */
  readonly readings: readonly {
    readonly line: string;
    readonly pressure: number;
    readonly flow: number;
    readonly isUsed: boolean;
    readonly address: string;
  }[];
  /** The fitted lines at both ends of their readings' range, in the looks of the drawing. */
  readonly lines: readonly {
    readonly name: string;
    readonly colour: string;
    readonly marker: Marker;
    readonly ends: readonly GraphPoint[];
  }[];
  readonly limits: readonly (GraphPoint & { readonly words: string })[];
  readonly flowUnit: string;
  /** The drawing in words. */
  readonly description: string;
}

interface GraphPoint {
  readonly pressure: number;
  readonly flow: number;
}

/** A cell to type into. */
export interface InputAnswer extends CellPlace {
  readonly address: string;
  readonly label: string;
  readonly unit: string;
  readonly shown: string;
  /** The words the cell accepts, if it accepts only some. */
  readonly choices: readonly string[];
}

/** A typed change, the text as a person typed it. */
export interface TypedChange extends CellPlace {
  readonly text: string;
}

/** Something typed into a cell: a number, a text, or a formula with its "="; null empties the cell. */
export interface TypedEntry {
  readonly address: string;
  readonly entry: string | number | null;
}

/** A call of the add-in that shows no result, and how it would be typed. */
export interface UnboundCall {
  readonly sheet: string;
  readonly address: string;
  readonly formula: string;
}

/** What a formula would give in a cell. */
export interface PreviewAnswer {
  /** As the cells would show it; the first rows of a long result. */
  readonly rows: readonly (readonly string[])[];
  readonly rowCount: number;
  readonly columnCount: number;
  /** Why there is no result, "" if there is one: the words of the function's own error. */
  readonly problem: string;
  /** Cells that hold something where the result would be. */
  readonly inTheWay: readonly string[];
}

export interface Step {
  readonly address: string;
  readonly label: string;
  readonly before: string;
  readonly after: string;
}

export interface TrialAnswer {
  readonly summary: readonly (Step & { readonly unit: string })[];
  readonly verdicts: readonly Step[];
  readonly changed: number;
  readonly cautions: readonly string[];
}

/** What differs between two versions of a workbook. */
export interface ComparisonAnswer {
  readonly inputs: readonly Step[];
  readonly formulas: readonly Step[];
  readonly results: readonly Step[];
  readonly verdicts: readonly Step[];
  /** Sheets that only one of the two has. */
  readonly onlyBefore: readonly string[];
  readonly onlyAfter: readonly string[];
}

/** A difference, and the verdicts that the earlier version gives with this difference alone. */
export interface Turn extends Step {
  readonly words: string;
  readonly turns: boolean;
}

/** A file for the reader to keep. */
export interface FileAnswer {
  readonly name: string;
  readonly type: string;
  readonly bytes: Uint8Array | string;
  /** What a person should know about it, such as its fingerprint. */
  readonly notes: readonly string[];
}
