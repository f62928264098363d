import { isSingleCell, type Place, placeKey } from "../book/area";
import { readSetting } from "../book/tests/entered-runs";
import type { Node } from "../formula/parse/syntax";
import { formatCellValue, formatFigure, showFormula } from "../formatting";
import type { Judgement } from "./judgements";
import { findLimitCell } from "./limit-words";
import { findEntry, findLookupFault } from "./look-ups";
import type { Review } from "./review";
import { findUnitBehind } from "./units";

/** A limit that is more than the entry it comes from. */
export interface UnexplainedLimit {
  readonly place: Place;
  readonly what: string;
  /** The limit without the step, where it can be told. */
  readonly without: number | undefined;
}

const deepest = 40;

/** Follows a limit back to the figure that was typed in; undefined if every step is explained or makes the limit no wider. */
export function findUnexplainedLimit(review: Review, judgement: Judgement): UnexplainedLimit | undefined {
  const { limit, place } = judgement;
  return followNode(review, judgement, limit.node, place, 0).step;
}

interface Source {
  /** The value that was typed in, as far as it can be told. */
  readonly base: number | undefined;
  readonly step?: UnexplainedLimit | undefined;
}

const passing = new Set(["VALUE", "N", "NUMBERVALUE", "ROUND", "SUM", "T", "MIN", "IFERROR", "IFNA"]);
const choosing = new Set(["IF", "IFS", "CHOOSE", "SWITCH"]);

function followNode(review: Review, judgement: Judgement, node: Node, place: Place, depth: number): Source {
  const { view } = review;
  const [own] = view.evaluateNode(node, place) ?? [];
  const value = typeof own === "number" ? own : undefined;
  if (depth > deepest || value === undefined) return { base: value };
  const follow = (part: Node): Source => followNode(review, judgement, part, place, depth + 1);
  if (node.type === "constant" || node.type === "addIn") return { base: value };
  if (node.type === "area" || node.type === "name" || node.type === "table") {
    const [area] = view.resolveNode(node, place);
    if (!area || !isSingleCell(area)) return { base: value };
    return followCell(review, judgement, { sheet: area.sheet, row: area.top, column: area.left }, depth);
  }
  if (node.type === "sign" || node.type === "single") return follow(node.operand);
  if (node.type === "call") {
    const fault = findLookupFault(view, node, place);
    if (fault) return { base: undefined, step: reportLookup(review, judgement, place, node, fault, value) };
    const entry = findEntry(view, node, place);
    if (entry) return followCell(review, judgement, entry, depth);
    const parts = node.arguments.filter((part): part is Node => part !== null);
    if (passing.has(node.name) || choosing.has(node.name)) {
      const chosen = parts.slice(choosing.has(node.name) ? 1 : 0).find((part) => {
        const [given] = view.evaluateNode(part, place) ?? [];
        return given === value;
      });
      return chosen ? follow(chosen) : { base: value };
    }
    return { base: value };
  }
  if (node.type !== "operation") return { base: value };
  const sides = [follow(node.left), follow(node.right)];
  const known = sides.find(({ step }) => step);
  if (known) return known;
  const bases = sides.flatMap(({ base }) => (base !== undefined && base > 0 ? [base] : []));
  if (bases.length === 0 || bases.some((base) => isSizeOrUnit(review, judgement, value / base))) return { base: value };
  const base = bases.reduce((best, one) => (Math.abs(one / value - 1) < Math.abs(best / value - 1) ? one : best));
  if (value <= base * (1 + 1e-9)) return { base: value };
  const what = `${showFormula(view.findCell(place)?.formula?.text ?? "")} makes the limit ${formatFigure(value)} out of ${formatFigure(base)}`;
  return { base, step: { place, what, without: base } };
}

function followCell(review: Review, judgement: Judgement, cell: Place, depth: number): Source {
  const { view } = review;
  const root = view.findOwner(cell) ? undefined : view.parseFormulaAt(cell)?.root;
  if (!root) return { base: view.readNumber(cell) };
  return followNode(review, judgement, root, cell, depth + 1);
}

/** Limits per area or per volume become flows, and units change. */
function isSizeOrUnit({ view }: Review, { runs }: Judgement, ratio: number): boolean {
  if (findUnitBehind(ratio, 1e-3) || findUnitBehind(1 / ratio, 1e-3)) return true;
  const perArea = [18.288, 5.08, 1 / 18.288, 1 / 5.08];
  if (perArea.some((known) => Math.abs(ratio / known - 1) < 2e-3)) return true;
  return runs.some((run) =>
    ["volume", "envelope area", "floor area"].some((label) => {
      const size = readSetting(view, run, label);
      return typeof size === "number" && (near(ratio, size) || near(ratio, 1 / size) || near(ratio, size / 60));
    }),
  );
}

const near = (one: number, other: number): boolean => Math.abs(one / other - 1) < 1e-6;

function reportLookup(
  { view }: Review,
  _judgement: Judgement,
  place: Place,
  node: Node,
  { asked, found }: { readonly asked: unknown; readonly found: unknown },
  value: number,
): UnexplainedLimit {
  const entry = findEntry(view, node, place);
  const text = showFormula(view.findCell(place)?.formula?.text ?? "");
  const where = entry && typeof found === "string" ? ` (${view.formatAddress(entry)})` : "";
  return {
    place,
    what: `${text} looks for ${formatCellValue(asked as string)} but gives ${formatFigure(value)}, the entry of ${formatCellValue(found as string)}${where}`,
    without: undefined,
  };
}

/** A limit found in another way than those of the judgements beside it. */
export function findOddLimit(review: Review, judgement: Judgement): UnexplainedLimit | undefined {
  const { view } = review;
  const own = findLimitCell(judgement.limit);
  if (!own) return undefined;
  const beside = review.judgements.flatMap((other) => {
    const cell = other === judgement ? undefined : findLimitCell(other.limit);
    return cell && cell.sheet === own.sheet && cell.column === own.column && cell.row !== own.row ? [cell] : [];
  });
  const cells = [...new Map(beside.map((cell) => [placeKey(cell), cell])).values()];
  if (cells.length < 2) return undefined;
  const pattern = view.findPattern(own);
  const others = new Set(cells.map((cell) => view.findPattern(cell)));
  const [common] = others;
  if (others.size === 1 && common !== undefined && common !== pattern && pattern !== undefined) {
    const [first] = cells;
    return {
      place: own,
      what: `${showFormula(view.findCell(own)?.formula?.text ?? "")} finds this limit in another way than those beside it, such as ${first ? `${view.formatAddress(first)} (${showFormula(view.findCell(first)?.formula?.text ?? "")})` : ""}`,
      without: undefined,
    };
  }
  return pattern === undefined && others.size === 1 && common === undefined
    ? findOddFigure(review, judgement, own, cells)
    : undefined;
}

/** One typed limit that is wider than the others of its column, which are all the same, where nothing but it makes the house pass. */
function findOddFigure(
  { view }: Review,
  { result, limit }: Judgement,
  own: Place,
  cells: readonly Place[],
): UnexplainedLimit | undefined {
  const values = new Set(cells.map((cell) => view.readNumber(cell)));
  const [usual] = values;
  if (values.size !== 1 || usual === undefined || !(usual < result.value && result.value <= limit.value))
    return undefined;
  const describeRow = (cell: Place): string =>
    view
      .listUsedPlaces({ sheet: cell.sheet, top: cell.row, bottom: cell.row, left: 0, right: cell.column - 1 })
      .slice(1)
      .map((place) => view.readText(place))
      .join(" ");
  // Another kind of house has another limit, and its row says so.
  if (cells.some((cell) => describeRow(cell) !== describeRow(own))) return undefined;
  return {
    place: own,
    what: `The limit ${formatFigure(limit.value)} is wider than that of the ${cells.length} houses beside it, ${formatFigure(usual)}`,
    without: usual,
  };
}
