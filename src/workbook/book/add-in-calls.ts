import type { AddInRegistry } from "../formula/calls/add-in";
import { unrollChain, collectDescendants, listDescendants, type Node, type Pair } from "../formula/parse/syntax";
import { areaOf, type Place, type SheetArea } from "./area";
import type { Inspector } from "./inspector";

/** One argument of an add-in call as written. */
export interface Argument {
  readonly node: Node;
  /** The areas it mentions. */
  readonly areas: readonly SheetArea[];
  /** The area it is about, if it mentions only one: a range, or IF(range="","",range). */
  readonly area: SheetArea | undefined;
  /** A text or number written into the call. */
  readonly literal: string | number | undefined;
}

/** A call of an add-in function in a cell. */
export interface Call {
  readonly place: Place;
  /** The call itself, with nothing around it. */
  readonly node: Node;
  readonly id: string;
  readonly arguments: readonly (Argument | undefined)[];
  /** True if the call's result is the cell's: it is alone, or one of the outcomes of IF. */
  readonly alone: boolean;
}

/** Every add-in call in the book's formulas, in order of sheets and cells. */
export function findCalls(view: Inspector): Call[] {
  const calls: Call[] = [];
  for (const place of view.listFormulaPlaces()) {
    const parsed = view.parseFormulaAt(place);
    if (!parsed || parsed.addInCalls === 0) continue;
    const root = replaceLet(parsed.root);
    for (const node of listDescendants(root)) {
      if (node.type !== "addIn") continue;
      calls.push({
        place,
        node,
        id: node.id.toUpperCase(),
        arguments: node.arguments.map((argument) => (argument ? readArgument(view, argument, place) : undefined)),
        alone: listOutcomes(root).includes(node),
      });
    }
  }
  return calls;
}

/** The nodes one of which is the cell's result: the root, or the branches of IF and the first argument of IFERROR. */
function listOutcomes(root: Node): Node[] {
  if (root.type !== "call" || (root.name !== "IF" && root.name !== "IFERROR")) return [root];
  const branches = root.name === "IF" ? root.arguments.slice(1) : root.arguments.slice(0, 1);
  return branches.flatMap((branch) => (branch ? listOutcomes(branch) : []));
}

/** A part of a formula with the areas it mentions. */
export function readArgument(view: Inspector, node: Node, place: Place): Argument {
  const areas = new Map<string, SheetArea>();
  for (const area of listMentionedAreas(view, node, place)) areas.set(view.formatArea(area), area);
  const all = [...areas.values()];
  const literal = node.type === "constant" ? node.value : undefined;
  const plain = typeof literal === "string" || typeof literal === "number" ? literal : undefined;
  return { node, areas: all, area: all.length === 1 ? all[0] : undefined, literal: plain };
}

const moves = new Set(["OFFSET", "INDEX", "INDIRECT"]);

/** Whether a part is a range with a computed address: OFFSET, A1:INDEX(…), or a name for one. */
function isMoving(view: Inspector, node: Node, place: Place, depth = 0): boolean {
  if (node.type === "call") return moves.has(node.name);
  if (node.type === "join") {
    const { first, steps } = unrollChain(node);
    return [first, ...steps.map(({ right }) => right)].some((end) => isMoving(view, end, place, depth));
  }
  if (node.type !== "name" || depth > 8) return false;
  const meaning = view.resolveName(node.name, node.sheet, place);
  return meaning !== undefined && isMoving(view, meaning, place, depth + 1);
}

/** The areas a part mentions; for a computed range, its current one, if that is a range. */
function listMentionedAreas(view: Inspector, root: Node, place: Place): SheetArea[] {
  const moved = new Map<Node, readonly SheetArea[]>();
  const nodes = collectDescendants(root, (node) => {
    const areas = isMoving(view, node, place) ? view.findMovedAreas(node, place) : [];
    if (areas.length > 0) moved.set(node, areas);
    return areas.length === 0;
  });
  return nodes.flatMap((node) => moved.get(node) ?? view.resolveNode(node, place));
}

/** The text of an argument: written into the call, or in the single cell it refers to. */
export function readText(view: Inspector, argument: Argument | undefined): string {
  if (typeof argument?.literal === "string") return argument.literal.trim().toLowerCase();
  const cell = argument?.area && view.listCells(argument.area)[0];
  return cell ? view.readText(cell).toLowerCase() : "";
}

/** The cells that a call fills. */
export function findFilledArea(view: Inspector, { place }: Call): SheetArea {
  const array = view.findSpill(place) ?? view.findCell(place)?.formula?.array;
  return array ? { sheet: place.sheet, ...array } : areaOf(place);
}

/** Native functions that pair the entries of their ranges. */
const pairing = new Set(
  "SLOPE INTERCEPT RSQ STEYX CORREL PEARSON COVARIANCE.S COVARIANCE.P LINEST LOGEST TREND FORECAST FORECAST.LINEAR SUMX2MY2 SUMXMY2 SUMIF AVERAGEIF COUNTIFS SUMIFS AVERAGEIFS".split(
    " ",
  ),
);

/** Independent parameters: baselines have as many readings as time allowed, settings as many rows as labels. */
const standsAlone = /^(baseline|settings|table|before$|after$)/;

/** For each call in a cell that pairs its ranges, add-in calls included: the ranges of the paired arguments. */
export function listPairedArguments(view: Inspector, addIn: AddInRegistry, place: Place): SheetArea[][] {
  const parsed = view.parseFormulaAt(place);
  if (!parsed || (parsed.addInCalls === 0 && ![...parsed.functions].some((name) => pairing.has(name)))) return [];
  const found: SheetArea[][] = [];
  for (const node of listDescendants(parsed.root)) {
    if (node.type !== "addIn" && !(node.type === "call" && pairing.has(node.name))) continue;
    const parameters = node.type === "addIn" ? addIn.get(node.id.toUpperCase())?.parameters : undefined;
    const paired = node.arguments.filter((_, index) => !standsAlone.test(parameters?.[index]?.name ?? ""));
    found.push(paired.flatMap((argument) => (argument ? (readArgument(view, argument, place).area ?? []) : [])));
  }
  return found;
}

type Meanings = ReadonlyMap<string, Node>;

/** A formula with the names of LET replaced by their definitions, so that each part can be read by itself. */
function replaceLet(node: Node, known: Meanings = new Map()): Node {
  const replaceInside = (part: Node): Node => replaceLet(part, known);
  const replaceInEach = (parts: readonly (Node | null)[]): (Node | null)[] =>
    parts.map((part) => part && replaceInside(part));
  switch (node.type) {
    case "name":
      return (node.sheet === "" ? known.get(node.name.toLowerCase()) : undefined) ?? node;
    case "let": {
      const meanings = new Map(known);
      node.names.forEach((name, index) => {
        const value = node.values[index];
        if (value) meanings.set(name.toLowerCase(), replaceLet(value, meanings));
      });
      return replaceLet(node.body, meanings);
    }
    case "sign":
    case "spill":
    case "single":
      return { ...node, operand: replaceInside(node.operand) };
    case "operation":
    case "join": {
      const { first, steps } = unrollChain<Pair>(node);
      return steps.reduce(
        (left: Node, step) => ({ ...step, left, right: replaceInside(step.right) }),
        replaceInside(first),
      );
    }
    case "call":
    case "addIn":
      return { ...node, arguments: replaceInEach(node.arguments) };
    case "apply":
      return { ...node, callee: replaceInside(node.callee), arguments: replaceInEach(node.arguments) };
    case "constant":
    case "array":
    case "area":
    case "external":
    case "table":
    case "lambda":
    case "refused":
      return node;
  }
}
