import { isSingleCell, type Place, placeKey } from "../book/area";
import type { Inspector } from "../book/inspector";
import { unrollChain, collectDescendants, type Node } from "../formula/parse/syntax";
import { formatFigure } from "../formatting";
import type { Review } from "./review";

/** Cubic metres per hour in one cubic foot per minute: 0.3048³ · 60. */
const cfm = 0.3048 ** 3 * 60;

interface UnitRatio {
  readonly ratio: number;
  readonly words: string;
}

/** Factors by which a flow is off if its unit is mistaken; the words say what was typed instead of what. */
const ratios: readonly UnitRatio[] = [
  { ratio: 1 / cfm, words: "cfm typed instead of m³/h" },
  { ratio: cfm, words: "m³/h typed instead of cfm" },
  { ratio: 1 / 3.6, words: "L/s typed instead of m³/h" },
  { ratio: 3.6, words: "m³/h typed instead of L/s" },
  { ratio: cfm / 3.6, words: "L/s typed instead of cfm" },
  { ratio: 3.6 / cfm, words: "cfm typed instead of L/s" },
  { ratio: 1 / 3600, words: "m³/s typed instead of m³/h" },
  { ratio: 1 / 60, words: "m³/min typed instead of m³/h" },
];

/** The unit mistake that explains a ratio of typed to true, within a relative tolerance. */
export function findUnitBehind(ratio: number, tolerance: number): UnitRatio | undefined {
  return ratios.find((known) => Math.abs(ratio / known.ratio - 1) <= tolerance);
}

/** Functions that return one of their arguments, or a mean of them; arguments only compared are left out. */
const chosen: Readonly<Record<string, (given: readonly (Node | null)[]) => readonly (Node | null)[]>> = {
  IF: (given) => given.slice(1),
  IFERROR: (given) => given,
  IFNA: (given) => given,
  CHOOSE: (given) => given.slice(1),
  AVERAGE: (given) => given,
  MEDIAN: (given) => given,
  MIN: (given) => given,
  MAX: (given) => given,
  ROUND: (given) => given.slice(0, 1),
  N: (given) => given,
};

const mostCells = 2000;

/**
 * The typed numbers that reach a cell in their own unit: passed on, chosen from, averaged or corrected by a certificate. Behind a formula that
 * does anything else, such as converting °F or hPa, a figure is legitimately in another unit.
 */
export function findSameUnitSources(view: Inspector, place: Place): Place[] {
  const found = new Map<number, Place>();
  const waiting: Place[] = [place];
  for (let next = waiting.pop(); next && found.size < mostCells; next = waiting.pop()) {
    if (found.has(placeKey(next))) continue;
    found.set(placeKey(next), next);
    const root = view.findOwner(next) ? undefined : view.parseFormulaAt(next)?.root;
    if (!root) continue;
    for (const node of listHandedOn(root))
      for (const area of view.resolveNode(node, next)) for (const cell of view.listCells(area)) waiting.push(cell);
  }
  return [...found.values()]
    .filter((source) => view.isTyped(source) && view.readNumber(source) !== undefined)
    .sort((a, b) => a.sheet - b.sheet || a.row - b.row || a.column - b.column);
}

/** The references whose value a formula passes on in its unit. */
function listHandedOn(node: Node | null | undefined): Node[] {
  if (!node) return [];
  if (node.type === "area" || node.type === "name" || node.type === "table") return [node];
  if (node.type === "single") return listHandedOn(node.operand);
  if (node.type === "addIn" && node.id.toUpperCase() === "CALIBRATEDVALUE") return listHandedOn(node.arguments[0]);
  if (node.type === "call") return (chosen[node.name]?.(node.arguments) ?? []).flatMap(listHandedOn);
  const mean = splitMean(node);
  return mean.flatMap(listHandedOn);
}

/** The terms of a written-out mean, (a+b)/2: as many as the divisor of their sum. */
function splitMean(node: Node): Node[] {
  if (node.type !== "operation" || node.operator !== "/" || node.right.type !== "constant") return [];
  const terms = splitTerms(node.left);
  return terms.length === node.right.value ? terms : [];
}

function splitTerms(node: Node): Node[] {
  if (node.type === "operation" && node.operator === "+") return [...splitTerms(node.left), ...splitTerms(node.right)];
  return [node];
}

/** Meaningful factors near one: air densities, ninths of a degree, discharge coefficients. */
const known = [1.2, 1.204, 1.2041, 1.205, 1.225, 1.293, 1.8, 0.6, 0.61, 0.611, 1.44];
/** Units of length and speed with a ratio near one: yard, knot, nautical and statute mile. */
const conversions = [0.9144, 0.51444, 1.852, 1.60934];
/** Meaningful differences: degrees, and Sutherland's constant. */
const knownSteps = [273.15, 459.67, 32, 110.4];
/** A lone figure within the narrow bounds is taken for an adjustment; a whole product of figures within the wider ones. */
const [near, wide] = [1.25, 2];
/** A sum of sizes or flows has no reason to be multiplied by a figure, except to halve it or the like. */
const wideOfSum = 8;

/** A longer chain of operations was not written by a person. */
const longest = 100;

const comparing = new Set(["=", "<", ">", "<=", ">=", "<>"]);

/**
 * A formula's adjustments in words, each once; anything only compared is left out.
 * @param isOfSize Whether the formula is on the way to a volume or an area, to which nothing is added and which is not rounded up.
 */
export function describeAdjustments(review: Review, root: Node, place: Place, isOfSize: boolean): string[] {
  const found = new Set<string>();
  const compares = (node: Node): boolean => node.type === "operation" && comparing.has(node.operator);
  for (const node of collectDescendants(root, (one) => !compares(one))) {
    const own =
      node.type === "operation" && !compares(node)
        ? describeAdjustment(review, node, place, isOfSize)
        : (describeChoice(node) ?? (isOfSize ? describeRoundingUp(review, node, place) : undefined));
    if (own !== undefined) found.add(own);
  }
  return [...found];
}

/** A condition that chooses between two written figures of nearly the same size: a certificate's coefficient for one house, another for the rest. */
function describeChoice(node: Node): string | undefined {
  if (node.type !== "call" || node.name !== "IF") return undefined;
  const [one, other] = node.arguments.slice(1).flatMap((part) => (part?.type === "constant" ? [part.value] : []));
  if (typeof one !== "number" || typeof other !== "number" || !(one > 0) || !(other > 0) || one === other)
    return undefined;
  if (Number.isInteger(one) || Number.isInteger(other) || !isWithin(one / other, near)) return undefined;
  if ([one, other].every(isKnown)) return undefined;
  return `takes ${formatFigure(one, 6)} or ${formatFigure(other, 6)} by a condition`;
}

/** How much a size gains by rounding, relative, where that is more than its last digits: always upwards, or to the nearest, as the dimensions of a room are. */
const roundings: readonly (readonly [name: RegExp, gain: number])[] = [
  [/^(CEILING|ROUNDUP)/, 0.002],
  [/^(ROUND|MROUND)$/, 0.05],
];

/** A size rounded up by more than its last digits. */
function describeRoundingUp({ view }: Review, node: Node, place: Place): string | undefined {
  if (node.type !== "call") return undefined;
  const [given] = node.arguments;
  const gain = roundings.find(([name]) => name.test(node.name))?.[1];
  if (!given || gain === undefined) return undefined;
  const [[before = null] = [], [after = null] = []] = [given, node].map((part) => view.evaluateNode(part, place) ?? []);
  if (typeof before !== "number" || typeof after !== "number" || !(after > before * (1 + gain))) return undefined;
  return `rounds ${formatFigure(before)} up to ${formatFigure(after)}`;
}

function describeAdjustment(
  review: Review,
  node: Node & { type: "operation" },
  place: Place,
  isOfSize: boolean,
): string | undefined {
  const isProduct = node.operator === "*" || node.operator === "/";
  // Each part of a product is examined as a product too; one this long is beyond judging.
  if (isProduct) return unrollChain(node).steps.length > longest ? undefined : describeFactor(review, node, place);
  return node.operator === "+" || node.operator === "-" ? stepOf(review, node, place, isOfSize) : undefined;
}

/** A product whose figures multiply to slightly more or less than one. */
function describeFactor(review: Review, node: Node, place: Place): string | undefined {
  const { figures, others } = collectFactors(review, node, place);
  if (others === 0 || figures.length === 0) return undefined;
  const lone = figures.find((value) => isWithin(value, near) && !isKnown(value));
  const product = figures.reduce((all, value) => all * value, 1);
  const reach = isSumTimesFigure(node) ? wideOfSum : wide;
  const factor = lone ?? (others === 1 && isWithin(product, reach) && !isKnown(product) ? product : undefined);
  return factor === undefined ? undefined : `multiplies by ${formatFigure(factor, 6)}`;
}

/** Whether a product is a written figure of several digits times a sum, such as SUM(D8:D23)*0.42. */
function isSumTimesFigure(node: Node): boolean {
  if (node.type !== "operation") return false;
  const [figure] = [node.left, node.right].flatMap((part) => (part.type === "constant" ? [part.value] : []));
  const isSum = [node.left, node.right].some((part) => isSumOfCells(part));
  return isSum && typeof figure === "number" && !Number.isInteger(figure * 4) && !Number.isInteger(1 / figure);
}

/** A call that adds up cells. */
const isSumOfCells = (node: Node): boolean => node.type === "call" && /^SUM(IFS?)?$/.test(node.name);

const isWithin = (value: number, times: number): boolean => value < times && value > 1 / times;
const isNear = (value: number, one: number, tolerance: number): boolean =>
  Math.abs(value / one - 1) < tolerance || Math.abs(value * one - 1) < tolerance;
const isKnown = (value: number): boolean =>
  [1, ...known].some((one) => isNear(value, one, 1e-9)) ||
  conversions.some((one) => isNear(value, one, 1e-3)) ||
  findUnitBehind(value, 1e-3) !== undefined;

interface Factors {
  readonly figures: readonly number[];
  /** The number of other factors. */
  readonly others: number;
}

/**
 * The figures in a product: literal, or in a typed cell without a label; divisors as their reciprocals. Where there is nothing else, such a cell is what the
 * written figures change: a reading in a column without a heading.
 */
function collectFactors(review: Review, root: Node, place: Place): Factors {
  const written: number[] = [];
  const bare: number[] = [];
  let others = 0;
  const open: { readonly node: Node; readonly sign: 1 | -1 }[] = [{ node: root, sign: 1 }];
  for (let next = open.pop(); next; next = open.pop()) {
    const { node, sign } = next;
    if (node.type === "operation" && (node.operator === "*" || node.operator === "/")) {
      open.push({ node: node.right, sign: node.operator === "/" ? (sign === 1 ? -1 : 1) : sign });
      open.push({ node: node.left, sign });
      continue;
    }
    const value = readFigure(review, node, place);
    if (value === undefined) others += 1;
    else (node.type === "constant" ? written : bare).push(value ** sign);
  }
  return others === 0 ? { figures: written, others: bare.length } : { figures: [...written, ...bare], others };
}

function readFigure({ view }: Review, node: Node, place: Place): number | undefined {
  if (node.type === "constant") return typeof node.value === "number" ? node.value : undefined;
  const [area, ...more] = view.resolveNode(node, place);
  if (node.type !== "area" || !area || more.length > 0 || !isSingleCell(area)) return undefined;
  const cell = { sheet: area.sheet, row: area.top, column: area.left };
  const isBare =
    view.isTyped(cell) && view.labels.readWordsBefore(cell) === "" && view.labels.readWordsAbove(cell) === "";
  return isBare ? view.readNumber(cell) : undefined;
}

/** A figure added or subtracted that is small compared with what it changes; whole numbers count rows and days. */
function stepOf(
  review: Review,
  node: Node & { type: "operation" },
  place: Place,
  isOfSize: boolean,
): string | undefined {
  const [left, right] = [node.left, node.right].map((part) => readFigure(review, part, place));
  const [step, other] = right === undefined ? [left, node.right] : [right, node.left];
  if (step === undefined || (left !== undefined && right !== undefined)) return undefined;
  const [value = null] = review.view.evaluateNode(other, place) ?? [];
  if (typeof value !== "number" || knownSteps.includes(step)) return undefined;
  // To a sum of measured sizes nothing is added, not even a whole number.
  const isSize = isOfSize && (isSumOfCells(other) || (other.type === "operation" && other.operator === "*"));
  if (Number.isInteger(step) && !isSize && !(isSumOfCells(other) && !Number.isInteger(value))) return undefined;
  const share = Math.abs(step / value);
  if (!(share < 0.5 && share > 1e-6)) return undefined;
  return node.operator === "-" ? `takes away ${formatFigure(step, 6)}` : `adds ${formatFigure(step, 6)}`;
}
