import type { ConditionalRule } from "../file/appearance/conditional-rules";
import type { SheetLooks } from "../file/appearance/sheet-appearance";
import { SharedFormula } from "../file/sheet/formulas";
import { evaluateBook, type EvaluateOptions } from "../formula/evaluate";
import { formatCellAddress } from "../book/address";
import { buildCellKey, type Book, type Cell, type CellValue } from "../model";

/** The rules in effect at a cell, in order of precedence. */
export type RulesAt = (sheet: number, row: number, column: number) => readonly ConditionalRule[];

export interface Conditions {
  readonly rulesAt: RulesAt;
  /** The number of conditions not evaluated, or beyond the limit. */
  readonly unknown: number;
}

/** More than this would take longer than the workbook itself. */
const mostConditions = 20_000;

/** Conditions are placed in unused cells: a sheet's last columns. */
const lastColumn = 16_383;

interface Asked {
  readonly sheet: number;
  readonly key: number;
  readonly rule: ConditionalRule;
  readonly place: number;
  readonly column: number;
}

/**
 * Finds which conditional formats apply, by evaluating each condition as if it were in a cell of its sheet.
 * `lastOf` gives the extent shown, so that a rule on a whole column costs no more than its filled part.
 */
export function evaluateConditions(
  book: Book,
  looks: readonly SheetLooks[],
  lastOf: (sheet: number) => { readonly row: number; readonly column: number },
  options: EvaluateOptions,
): Conditions {
  const asked: Asked[] = [];
  let unknown = 0;
  const sheets = book.sheets.map((sheet, index) => {
    const cells = new Map(sheet.cells);
    let count = 0;
    for (const rule of looks[index]?.rules ?? []) {
      for (const { row, column, formula } of listConditionsOfRule(rule, lastOf(index))) {
        if (asked.length >= mostConditions) {
          unknown++;
          continue;
        }
        const place = count++;
        const spare: Cell = {
          row: Math.floor(place / 64),
          column: lastColumn - (place % 64),
          value: null,
          formula: { text: formula },
          format: "General",
        };
        cells.set(buildCellKey(spare.row, spare.column), spare);
        asked.push({ sheet: index, key: buildCellKey(row, column), rule, place: spare.row, column: spare.column });
      }
    }
    return { ...sheet, cells };
  });
  if (asked.length === 0) return { rulesAt: () => [], unknown };
  const evaluation = evaluateBook({ ...book, sheets }, options);
  const held = new Map<string, ConditionalRule[]>();
  for (const { sheet, key, rule, place, column } of asked) {
    const outcome = evaluation.outcome(sheet, place, column);
    if (outcome?.evaluated !== true) unknown++;
    else if (isTrue(outcome.value)) {
      const name = `${sheet} ${key}`;
      const before = held.get(name) ?? [];
      if (!before.some(({ stops }) => stops)) held.set(name, [...before, rule]);
    }
  }
  return { rulesAt: (sheet, row, column) => held.get(`${sheet} ${buildCellKey(row, column)}`) ?? [], unknown };
}

function isTrue(value: CellValue): boolean {
  return value === true || (typeof value === "number" && value !== 0);
}

function* listConditionsOfRule(rule: ConditionalRule, last: { readonly row: number; readonly column: number }) {
  // Formulas are relative to the first cell of all areas combined.
  const top = rule.areas.reduce((least, area) => Math.min(least, area.top), Infinity);
  const left = rule.areas.reduce((least, area) => Math.min(least, area.left), Infinity);
  const moved = rule.formulas.map((text) => new SharedFormula(text, top, left));
  for (const area of rule.areas) {
    for (let row = area.top; row <= Math.min(area.bottom, last.row); row++) {
      for (let column = area.left; column <= Math.min(area.right, last.column); column++) {
        const formulas = moved.map((formula) => formula.translateTo(row, column));
        yield { row, column, formula: writeCondition(rule, formatCellAddress(row, column), formulas) };
      }
    }
  }
}

const comparisons: ReadonlyMap<string, string> = new Map(
  Object.entries({
    equal: "=",
    notEqual: "<>",
    lessThan: "<",
    lessThanOrEqual: "<=",
    greaterThan: ">",
    greaterThanOrEqual: ">=",
  }),
);

/** The rule as one formula; Excel writes the formula of text rules itself. */
function writeCondition(
  { kind, operator }: ConditionalRule,
  cell: string,
  [one = "FALSE", two = "FALSE"]: string[],
): string {
  if (kind !== "cellIs") return one;
  if (operator === "between") return `AND(${cell}>=${one},${cell}<=${two})`;
  if (operator === "notBetween") return `OR(${cell}<${one},${cell}>${two})`;
  return `${cell}${comparisons.get(operator) ?? "="}(${one})`;
}
