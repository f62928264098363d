import { buildCellKey, type OpenedWorkbook, readInputRules } from "../../workbook/index";
import type { CellPlace } from "./answers";

/** Which cells are inputs: the unlocked ones of protected sheets; on a sheet without protection, where texts may be labels, the typed numbers. */
export function createInputRules(opened: OpenedWorkbook) {
  const known = new Map<number, ReturnType<typeof readInputRules>>();
  const rulesOf = (sheet: number): ReturnType<typeof readInputRules> => {
    const rules = known.get(sheet) ?? readInputRules(opened, sheet);
    known.set(sheet, rules);
    return rules;
  };
  return {
    isInput(sheet: number, row: number, column: number): boolean {
      const rules = rulesOf(sheet);
      if (rules.isProtected) return !rules.isLocked(row, column);
      return typeof opened.book.sheets[sheet]?.cells.get(buildCellKey(row, column))?.value === "number";
    },
    listChoices: ({ sheet, row, column }: CellPlace): readonly string[] =>
      rulesOf(sheet)
        .rulesOf(row, column)
        .flatMap((rule) => (rule.kind === "list" ? rule.items : [])),
  };
}
