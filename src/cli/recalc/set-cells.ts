import {
  type Area,
  formatAreaAddress,
  type Book,
  formatCellAddress,
  buildCellKey,
  type CellPatch,
  type CellValue,
  ErrorValue,
  type InputRule,
  isErrorCode,
  formatList,
  mayBeNumber,
  type OpenedWorkbook,
  parsePlace,
  partOfArray,
  readInputRules,
  sentence,
  shorten,
} from "../../workbook/index";
import { BadArgument } from "../shared/parse-options";
import { shortenFormula, formatValue } from "../shared/words";

/** Finds the cells of all settings in the book; throws BadArgument for a cell that cannot sensibly be set. */
export function locateSettings(book: Book, settings: readonly Setting[], overFormulas: boolean): CellPatch[] {
  const seen = new Set<string>();
  return settings.map((setting) => {
    const sheet = findSheet(book, setting);
    const refusal = findRefusal(book, sheet, setting, overFormulas);
    if (refusal !== undefined) throw new BadArgument(`--set "${shorten(setting.typed)}": ${refusal}`);
    const key = `${sheet} ${buildCellKey(setting.row, setting.column)}`;
    if (seen.has(key)) throw new BadArgument(sentence`--set "${setting.typed}": this cell is set twice`);
    seen.add(key);
    return { sheet, row: setting.row, column: setting.column, value: setting.value };
  });
}

function findSheet(book: Book, { sheet, typed }: Setting): number {
  const index = book.sheets.findIndex(({ name }) => name.toLowerCase() === sheet.toLowerCase());
  if (index >= 0) return index;
  const names = book.sheets.map(({ name }) => shorten(name));
  throw new BadArgument(
    `--set "${shorten(typed)}": there is no sheet "${shorten(sheet)}"; the workbook has ${formatList(names, 12)}`,
  );
}

function findRefusal(book: Book, sheet: number, { row, column }: Setting, overFormulas: boolean): string | undefined {
  const cells = book.sheets[sheet]?.cells ?? new Map<number, never>();
  const isInside = (area: Area): boolean =>
    row >= area.top && row <= area.bottom && column >= area.left && column <= area.right;
  const formula = cells.get(buildCellKey(row, column))?.formula;
  if (formula && !overFormulas) {
    return `${formatCellAddress(row, column)} holds a formula (${shortenFormula(formula.text)}); set one of its inputs, or add --over-formulas`;
  }
  for (const cell of cells.values()) {
    const array = cell.formula?.array;
    if (array && cell.formula !== formula && isInside(array)) {
      return `${formatCellAddress(row, column)} is filled by the formula in ${formatCellAddress(cell.row, cell.column)}`;
    }
  }
  const part = partOfArray(book.sheets[sheet], row, column);
  if (part !== undefined) return part;
  const merged = book.sheets[sheet]?.mergedAreas.find(isInside);
  if (merged && (merged.top !== row || merged.left !== column)) {
    return `${formatCellAddress(row, column)} is hidden by the merged cells ${formatAreaAddress(merged)}; set ${formatCellAddress(merged.top, merged.left)}`;
  }
  const table = book.tables.find((candidate) => candidate.sheet === sheet && isInside(candidate.area));
  if (table && row < table.area.top + table.headerRows)
    return `${formatCellAddress(row, column)} is a heading of the table ${table.name}`;
  return undefined;
}

/** One --set as typed: the sheet by name, the place zero-based. */
export interface Setting {
  readonly typed: string;
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly value: CellValue;
}

const example = "--set 'Sheet!B4=512'";

/** Reads "Sheet!B4=512" or "'Air leakage'!B4=512"; throws BadArgument. */
export function readSetting(typed: string): Setting {
  const match = /^(?:'((?:[^']|'')+)'|([^!]+))!\$?([A-Za-z]+)\$?(\d+)\s*=([\s\S]*)$/.exec(typed);
  if (!match) throw new BadArgument(sentence`--set "${typed}" is not valid; write it as ${example}`);
  const [, quoted, plain = "", letters = "", digits = "", text = ""] = match;
  const place = parsePlace(letters + digits);
  if (!place) throw new BadArgument(sentence`--set "${typed}": ${letters}${digits} is not a cell of a sheet`);
  return { typed, sheet: quoted?.replaceAll("''", "'") ?? plain, ...place, value: readValue(text, typed) };
}

/** What typing it in Excel would give; refused if that depends on the computer's language. */
function readValue(text: string, typed: string): CellValue {
  const trimmed = text.trim();
  if (trimmed === "") return null;
  if (/^".*"$/s.test(trimmed) && trimmed.length > 1) return trimmed.slice(1, -1).replaceAll('""', '"');
  if (/^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?%?$/i.test(trimmed)) return readNumber(trimmed, typed);
  if (/^(true|false)$/i.test(trimmed)) return trimmed.toLowerCase() === "true";
  if (isErrorCode(trimmed.toUpperCase())) return new ErrorValue(trimmed.toUpperCase() as ErrorValue["code"]);
  if (trimmed.startsWith("=")) throw new BadArgument(sentence`--set "${typed}": only values can be set, not formulas`);
  if (/^[-+]?[\d.,\s'’]+%?$/.test(trimmed)) {
    throw new BadArgument(
      sentence`--set "${typed}": write numbers with a decimal point and no separators, text in double quotes`,
    );
  }
  if (/^\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}$|^\d{1,2}:\d{2}/.test(trimmed)) {
    throw new BadArgument(sentence`--set "${typed}": give a date or time as its serial number, text in double quotes`);
  }
  if (mayBeNumber(trimmed)) {
    throw new BadArgument(
      sentence`--set "${typed}": some regional settings would read this as a number or date; write numbers with a decimal point, dates as serial numbers, text in double quotes`,
    );
  }
  return text;
}

function readNumber(text: string, typed: string): number {
  const value = text.endsWith("%") ? Number(text.slice(0, -1)) / 100 : Number(text);
  if (!Number.isFinite(value)) throw new BadArgument(sentence`--set "${typed}": the number is too large for a cell`);
  return value;
}

/** Values set that Excel would have refused: in locked cells, or against the cell's data validation. */
export function setCautions(opened: OpenedWorkbook, set: readonly CellPatch[], settings: readonly Setting[]): string[] {
  const sheets = new Map(set.map(({ sheet }) => [sheet, readInputRules(opened, sheet)]));
  return set.flatMap(({ sheet, row, column, value }, place) => {
    const rules = sheets.get(sheet);
    const typed = sentence`--set "${settings[place]?.typed ?? ""}"`;
    const refused = (rules?.rulesOf(row, column) ?? []).filter((rule) => !allows(rule, value));
    return [
      ...(rules?.isLocked(row, column)
        ? [`${typed}: the cell is locked on a protected sheet, so it is not an input`]
        : []),
      ...refused.map(
        (rule) =>
          `${typed}: the cell's data validation rejects ${formatValue(value)}; it accepts ${describeTaken(rule)}`,
      ),
    ];
  });
}

/** A blank is never refused, since Excel does not validate clearing a cell; an error value is ignored. */
function allows(rule: InputRule, value: CellValue): boolean {
  if (value === null || value instanceof ErrorValue) return true;
  // Items listed in the rule itself are compared case-sensitively.
  if (rule.kind === "list") return rule.items.includes(typeof value === "string" ? value.trim() : formatValue(value));
  if (typeof value !== "number" || (rule.kind === "whole" && !Number.isInteger(value))) return false;
  const [low, high = low] = rule.bounds;
  const isBetween = value >= Math.min(low, high) && value <= Math.max(low, high);
  switch (rule.operator) {
    case "between":
      return isBetween;
    case "notBetween":
      return !isBetween;
    case "equal":
      return value === low;
    case "notEqual":
      return value !== low;
    case "greaterThan":
      return value > low;
    case "greaterThanOrEqual":
      return value >= low;
    case "lessThan":
      return value < low;
    case "lessThanOrEqual":
      return value <= low;
    default:
      return true;
  }
}

const operatorWords: Readonly<Record<string, string>> = {
  equal: "equal to",
  notEqual: "other than",
  greaterThan: "above",
  greaterThanOrEqual: "of at least",
  lessThan: "below",
  lessThanOrEqual: "of at most",
};

const mostItems = 12;

function describeTaken(rule: InputRule): string {
  const says = rule.message === "" ? "" : sentence` ("${rule.message}")`;
  if (rule.kind === "list")
    return `one of ${formatList(
      rule.items.map((item) => shorten(item)),
      mostItems,
    )}${says}`;
  const [low, high] = rule.bounds;
  const noun = rule.kind === "whole" ? "a whole number" : "a number";
  if (rule.operator === "between") return `${noun} from ${low} to ${high}${says}`;
  if (rule.operator === "notBetween") return `${noun} outside ${low} to ${high}${says}`;
  return `${noun} ${operatorWords[rule.operator] ?? rule.operator} ${low}${says}`;
}
