import { type Area, buildCellKey } from "../model";
import { parseArea, parsePlace } from "../book/address";
import type { OpenedWorkbook } from "./open";
import { readRelationships } from "./sheet/relationships";
import { readLockedStyles } from "./sheet/styles";
import { parseBoolean, type XmlPart, type XmlReader } from "./xml/xml";

/** A cell's data validation, if Excel enforces it and the bounds are constants. */
export type InputRule = { readonly message: string } & (
  | { readonly kind: "list"; readonly items: readonly string[] }
  | {
      readonly kind: "whole" | "decimal";
      readonly operator: string;
      readonly bounds: readonly [number, number | undefined];
    }
);

/** What a workbook lets a person type, each sheet read when first asked about. */
export interface Inputs {
  /** Whether the sheet is protected at all; only then do unlocked cells say what is an input. */
  readonly isProtected: (sheet: number) => boolean;
  readonly isLocked: (sheet: number, row: number, column: number) => boolean;
  /** Unlocked cells of protected sheets; on a sheet without protection, where texts may be labels, the typed numbers. */
  readonly isInput: (sheet: number, row: number, column: number) => boolean;
  readonly rulesOf: (sheet: number, row: number, column: number) => InputRule[];
}

export function readInputs(opened: OpenedWorkbook): Inputs {
  const known = new Map<number, InputRules>();
  let locked: readonly boolean[] | undefined;
  const ofSheet = (sheet: number): InputRules => {
    const rules = known.get(sheet) ?? readInputRules(opened, sheet, (locked ??= readLocked(opened)));
    known.set(sheet, rules);
    return rules;
  };
  return {
    isProtected: (sheet) => ofSheet(sheet).isProtected,
    isLocked: (sheet, row, column) => ofSheet(sheet).isLocked(row, column),
    isInput: (sheet, row, column) => {
      const rules = ofSheet(sheet);
      if (rules.isProtected) return !rules.isLocked(row, column);
      return typeof opened.book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.value === "number";
    },
    rulesOf: (sheet, row, column) => ofSheet(sheet).rulesOf(row, column),
  };
}

/** A sheet's input restrictions: locked cells, and cells with a rule. */
interface InputRules {
  readonly isProtected: boolean;
  isLocked(row: number, column: number): boolean;
  rulesOf(row: number, column: number): InputRule[];
}

/**
 * Reads a sheet's protection and data validations (ECMA-376 part 1, 18.3.1.85, 18.3.1.69, 18.3.1.32, 18.8.33) in a second pass over its part: cells
 * with only a style are not in the book. Lists, whole and decimal numbers with constant bounds are kept; other rules are ignored.
 */
function readInputRules(opened: OpenedWorkbook, sheet: number, locked: readonly boolean[]): InputRules {
  const partName = opened.sheetParts[sheet];
  if (partName === undefined) return { isProtected: false, isLocked: () => false, rulesOf: () => [] };
  const reader = new InputRulesReader();
  opened.archive.read(partName, reader);
  return {
    isProtected: reader.protection,
    isLocked: (row, column) => reader.isProtected(row, column) && (locked[reader.styleAt(row, column)] ?? true),
    rulesOf: (row, column) => reader.rules.flatMap(({ areas, rule }) => (holds(areas, row, column) ? [rule] : [])),
  };
}

/** Of each style of cells, whether it locks them. */
function readLocked({ archive }: OpenedWorkbook): readonly boolean[] {
  const main = readRelationships(archive, "").find(({ kind }) => kind === "officeDocument");
  const links = main ? readRelationships(archive, main.target) : [];
  const styles = links.find(({ kind }) => kind === "styles")?.target;
  return styles === undefined ? [] : readLockedStyles(archive, styles);
}

const holds = (areas: readonly Area[], row: number, column: number): boolean =>
  areas.some(({ top, bottom, left, right }) => row >= top && row <= bottom && column >= left && column <= right);

const parseAreas = (text = ""): Area[] => text.split(/\s+/).flatMap((part) => parseArea(part) ?? []);

type Attributes = Record<string, string>;

class InputRulesReader implements XmlReader {
  readonly rules: { readonly areas: readonly Area[]; readonly rule: InputRule }[] = [];
  protection = false;
  private readonly freed: Area[] = [];
  private readonly columns: { readonly first: number; readonly last: number; readonly style: number }[] = [];
  private readonly rowStyles = new Map<number, number>();
  /** Includes cells of style 0, which may be in a styled row or column. */
  private readonly cellStyles = new Map<number, number>();
  private row = -1;
  private column = -1;
  private validation: Attributes | undefined;
  private readonly formulas: [string, string] = ["", ""];
  private collecting: 0 | 1 | undefined;

  open(name: string, attributes: Attributes, part: XmlPart): void {
    const style = Number(attributes["s"] ?? 0);
    if (name === "row") {
      this.row = attributes["r"] === undefined ? this.row + 1 : Number(attributes["r"]) - 1;
      this.column = -1;
      if (parseBoolean(attributes["customFormat"])) this.rowStyles.set(this.row, style);
    } else if (name === "c") {
      this.column = parsePlace(attributes["r"] ?? "")?.column ?? this.column + 1;
      this.cellStyles.set(buildCellKey(this.row, this.column), style);
    } else if (name === "col") {
      const { min, max, style: ofColumn = "0" } = attributes;
      this.columns.push({ first: Number(min) - 1, last: Number(max) - 1, style: Number(ofColumn) });
    } else if (name === "sheetProtection") this.protection = parseBoolean(attributes["sheet"]);
    // Ranges unlocked by a password or sign-in are not simply locked.
    else if (name === "protectedRange") this.freed.push(...parseAreas(attributes["sqref"]));
    else if (name === "dataValidation") {
      this.validation = attributes;
      this.formulas.fill("");
    } else if ((name === "formula1" || name === "formula2") && this.validation) {
      this.collecting = name === "formula1" ? 0 : 1;
      part.wantText();
    }
  }

  addText(text: string): void {
    if (this.collecting !== undefined) this.formulas[this.collecting] += text;
  }

  close(name: string, part: XmlPart): void {
    if (this.collecting !== undefined && (name === "formula1" || name === "formula2")) {
      this.collecting = undefined;
      part.ignoreText();
    } else if (name === "dataValidation" && this.validation) {
      const rule = readRule(this.validation, this.formulas);
      if (rule) this.rules.push({ areas: parseAreas(this.validation["sqref"]), rule });
      this.validation = undefined;
    }
  }

  isProtected(row: number, column: number): boolean {
    return this.protection && !holds(this.freed, row, column);
  }

  styleAt(row: number, column: number): number {
    const ofColumn = this.columns.find(({ first, last }) => column >= first && column <= last)?.style;
    return this.cellStyles.get(buildCellKey(row, column)) ?? this.rowStyles.get(row) ?? ofColumn ?? 0;
  }
}

/** Only rules that stop: the others warn or do nothing, and accept the value. */
function readRule(attributes: Attributes, [first, second]: readonly [string, string]): InputRule | undefined {
  const { type: kind, operator = "between", errorStyle = "stop", error = "" } = attributes;
  if (errorStyle !== "stop" || !parseBoolean(attributes["showErrorMessage"])) return undefined;
  const message = error.replace(/_x000a_|\s+/gi, " ").trim();
  if (kind === "list") {
    const literal = /^"((?:[^"]|"")*)"$/.exec(first.trim())?.[1];
    if (literal === undefined) return undefined;
    return {
      kind,
      message,
      items: literal
        .replaceAll('""', '"')
        .split(",")
        .map((item) => item.trim()),
    };
  }
  if (kind !== "whole" && kind !== "decimal") return undefined;
  const [low, high] = [parseConstant(first), parseConstant(second)];
  const isPair = operator === "between" || operator === "notBetween";
  return low === undefined || (isPair && high === undefined)
    ? undefined
    : { kind, message, operator, bounds: [low, high] };
}

function parseConstant(text: string): number | undefined {
  const plain = text.trim().replace(/^=/, "");
  return /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i.test(plain) ? Number(plain) : undefined;
}
