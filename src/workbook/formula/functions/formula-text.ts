import { asTyped } from "../parse/as-typed";
import { takes, type FunctionTable } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import type { Slot } from "../grid/slot";
import { children, type AreaNode, type Node } from "../parse/syntax";
import { errors, isSingleCell } from "../values/value";

/** Functions that take ranges as they are; before a range anywhere else newer versions of Excel write an @. */
const takeRanges = new Set(
  (
    "SUM SUMSQ PRODUCT AVERAGE AVERAGEA MIN MAX MINA MAXA COUNT COUNTA COUNTBLANK COUNTIF COUNTIFS SUMIF SUMIFS AVERAGEIF AVERAGEIFS " +
    "MINIFS MAXIFS SUMPRODUCT STDEV STDEV.S STDEV.P VAR VAR.S VAR.P MEDIAN MODE MODE.SNGL GEOMEAN HARMEAN DEVSQ AVEDEV SKEW KURT " +
    "SLOPE INTERCEPT RSQ CORREL PEARSON STEYX FORECAST FORECAST.LINEAR LINEST LOGEST TREND GROWTH INDEX MATCH VLOOKUP HLOOKUP LOOKUP " +
    "XLOOKUP XMATCH OFFSET ROWS COLUMNS SUBTOTAL AGGREGATE LARGE SMALL RANK RANK.EQ RANK.AVG PERCENTILE PERCENTILE.INC QUARTILE " +
    "QUARTILE.INC TEXTJOIN CONCAT AND OR XOR"
  ).split(" "),
);

const isOneCell = ({ top, left, bottom, right }: AreaNode): boolean =>
  top.index === bottom.index && top.fixed === bottom.fixed && left.index === right.index && left.fixed === right.fixed;

/** True where newer versions of Excel may show the formula of an ordinary cell with an @ that the file does not hold. */
function mayShowAt(root: Node): boolean {
  const open: { readonly node: Node; readonly underRangeTaker: boolean }[] = [{ node: root, underRangeTaker: false }];
  for (let next = open.pop(); next; next = open.pop()) {
    const { node, underRangeTaker } = next;
    if (node.type === "single" || node.type === "spill" || node.type === "apply") return true;
    const isRange = node.type === "name" || node.type === "table" || node.type === "join";
    if (!underRangeTaker && (isRange || (node.type === "area" && !isOneCell(node)))) return true;
    if (isRange) continue;
    const takes = node.type === "call" && takeRanges.has(node.name);
    for (const child of children(node)) if (child) open.push({ node: child, underRangeTaker: takes });
  }
  return false;
}

function textOf({ formula, parsed }: Slot): string {
  if (!formula || !parsed) return "";
  const typed = asTyped(formula.text);
  if (/\bSINGLE\(/i.test(typed)) return refuse("FORMULATEXT of a formula that Excel may show with an @");
  if (formula.dynamic) return typed;
  if (formula.array) return `{${typed}}`;
  return mayShowAt(parsed.root) ? refuse("FORMULATEXT of a formula that Excel may show with an @") : typed;
}

/** Formulas as texts. */
export const formulaText: FunctionTable = {
  FORMULATEXT: takes(["reference"], ([reference], caller) => {
    const { area } = reference;
    if (!area || !isSingleCell(area)) return refuse("FORMULATEXT of a range");
    caller.grid.refuseLarge(area);
    const slot = caller.grid.slotAt(area.sheet, area.top, area.left);
    if (slot?.owner) return refuse("FORMULATEXT of a cell that an array fills");
    return slot?.formula ? textOf(slot) : errors.notAvailable;
  }),
};
