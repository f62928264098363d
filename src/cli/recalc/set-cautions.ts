import {
  ErrorValue,
  readInputRules,
  sentence,
  shorten,
  type CellPatch,
  type CellValue,
  type InputRule,
  type OpenedWorkbook,
} from "../../workbook/index";
import type { Setting } from "./set-text";
import { listed, shownValue } from "../shared/words";

/** What Excel would have refused of the values that were set: locked cells, and values against a cell's own data validation. */
export function setCautions(opened: OpenedWorkbook, set: readonly CellPatch[], settings: readonly Setting[]): string[] {
  const sheets = new Map(set.map(({ sheet }) => [sheet, readInputRules(opened, sheet)]));
  return set.flatMap(({ sheet, row, column, value }, place) => {
    const rules = sheets.get(sheet);
    const typed = sentence`--set "${settings[place]?.typed ?? ""}"`;
    const refused = (rules?.rulesOf(row, column) ?? []).filter((rule) => !allows(rule, value));
    return [
      ...(rules?.isLocked(row, column)
        ? [`${typed}: the cell is locked on a protected sheet, so it is not meant as an input`]
        : []),
      ...refused.map(
        (rule) => `${typed}: the cell's own data validation refuses ${shownValue(value)}; it takes ${taken(rule)}`,
      ),
    ];
  });
}

/** A blank is never refused, since Excel does not ask when a cell is cleared; an error value is left alone. */
function allows(rule: InputRule, value: CellValue): boolean {
  if (value === null || value instanceof ErrorValue) return true;
  // Items written into the rule itself are compared with their case.
  if (rule.kind === "list") return rule.items.includes(typeof value === "string" ? value.trim() : shownValue(value));
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

function taken(rule: InputRule): string {
  const says = rule.message === "" ? "" : sentence` ("${rule.message}")`;
  if (rule.kind === "list")
    return `one of ${listed(
      rule.items.map((item) => shorten(item)),
      mostItems,
    )}${says}`;
  const [low, high] = rule.bounds;
  const noun = rule.kind === "whole" ? "a whole number" : "a number";
  if (rule.operator === "between") return `${noun} from ${low} to ${high}${says}`;
  if (rule.operator === "notBetween") return `${noun} outside ${low} to ${high}${says}`;
  return `${noun} ${operatorWords[rule.operator] ?? rule.operator} ${low}${says}`;
}
