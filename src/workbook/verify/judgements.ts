import { type Argument, type Call, readArgument } from "../book/add-in-calls";
import { areaOf, isInside, type Place, placeKey, type SheetArea } from "../book/area";
import type { Inspector } from "../book/inspector";
import { type EnteredReading, type EnteredRun, runsAcross } from "../book/tests/entered-runs";
import { limitedQuantities, type MethodFigures } from "../book/tests/method-figures";
import type { TestsInBook } from "../book/tests/tests-in-book";
import { listDescendants, type Node, type OperationNode } from "../formula/parse/syntax";
import type { Verdict } from "./verdicts";

/** A number that reaches a decision, with the part of the formula that gives it. */
export interface Operand extends Argument {
  readonly value: number;
}

/** A decision on a test's result: it is compared with an upper limit, by PASSFAIL or by a formula of the workbook's own, in whatever words. */
export interface Judgement {
  readonly place: Place;
  readonly result: Operand;
  readonly limit: Operand;
  /** The call of PASSFAIL; undefined for a comparison. */
  readonly verdict: Verdict | undefined;
  /** The comparison; undefined for PASSFAIL. */
  readonly comparison: OperationNode | undefined;
  /** The runs whose readings the result depends on. */
  readonly runs: readonly EnteredRun[];
  /** Cells that belong to the comparison, without those of validity. */
  readonly judged: readonly SheetArea[];
}

const comparing = new Set(["<", "<=", ">", ">="]);

/** Beyond this ratio to the test's own result, a compared number is taken for something else. */
const mostRatio = 1.7;

interface Sources {
  readonly view: Inspector;
  readonly tests: TestsInBook;
  readonly figures: MethodFigures;
  readonly verdicts: readonly Verdict[];
}

/** Every decision in a workbook, those by PASSFAIL first. It is known by what is compared, not by the words that it shows. */
export function findJudgements(sources: Sources): Judgement[] {
  const { view, tests, verdicts } = sources;
  const runsBehind = createRunFinder(view, tests.entered);
  const byCall = verdicts.flatMap((verdict): Judgement[] => {
    const { call, judged } = verdict;
    const result = verdict.result && readOperand(view, verdict.result, call);
    const limit = verdict.target && readOperand(view, verdict.target, call);
    if (!result || !limit) return [];
    const runs = runsBehind(result.areas);
    return [{ place: call.place, result, limit, verdict, comparison: undefined, runs, judged }];
  });
  if (tests.entered.length === 0) return byCall;
  const decided = new Set(
    verdicts.flatMap(({ call, cells }) => [call.place, ...cells.map(({ place }) => place)]).map(placeKey),
  );
  const own: Judgement[] = [];
  for (const place of view.listFormulaPlaces()) {
    const formula = view.findCell(place)?.formula;
    const value = view.readValue(place);
    if (!formula || formula.array || !/[<>]/.test(formula.text) || decided.has(placeKey(place))) continue;
    if (typeof value !== "string" && typeof value !== "boolean") continue;
    const judgement = readComparison(sources, place, runsBehind);
    // What repeats a verdict in other words, such as a traffic light, decides nothing.
    if (judgement && !view.dependsOn([areaOf(place)], decided)) own.push(judgement);
  }
  return [...byCall, ...own];
}

function readOperand(view: Inspector, argument: Argument, { place }: Pick<Call, "place">): Operand | undefined {
  const values = view.evaluateNode(argument.node, place) ?? [];
  const [value] = values;
  return values.length === 1 && typeof value === "number" ? { ...argument, value } : undefined;
}

/** Finds the runs whose flows areas depend on: what depends on pressures alone is no leakage. */
function createRunFinder(view: Inspector, runs: readonly EnteredRun[]) {
  const measured = runs.map((run) => ({
    run,
    flows: new Set(run.readings.flatMap(({ flows }) => flows.map(placeKey))),
  }));
  return (areas: readonly SheetArea[]): EnteredRun[] =>
    measured.filter(({ flows }) => view.dependsOn(areas, flows)).map(({ run }) => run);
}

/** The lowest limit that a formula compares a result with; further ones may be bands such as "nearly met". */
function readComparison(
  sources: Sources,
  place: Place,
  runsBehind: ReturnType<typeof createRunFinder>,
): Judgement | undefined {
  const { view } = sources;
  const root = view.parseFormulaAt(place)?.root;
  if (!root) return undefined;
  let found: Judgement | undefined;
  for (const node of listDescendants(root)) {
    if (node.type !== "operation" || !comparing.has(node.operator)) continue;
    const sides = [node.left, node.right].map((side) => readArgument(view, side, place));
    const behind = sides.map(({ areas }) => runsBehind(areas));
    // What compares two results with each other, or none, is no judgement; most comparisons are of this kind.
    const measured = behind.findIndex((runs) => runs.length > 0);
    if (behind.filter((runs) => runs.length > 0).length !== 1) continue;
    const [result, limit] = [sides[measured], sides[1 - measured]].map(
      (side) => side && readOperand(view, side, { place }),
    );
    const runs = behind[measured];
    if (!result || !limit || !runs) continue;
    if (!(limit.value > 0) || (found && found.limit.value <= limit.value)) continue;
    if (isOtherMeasure(view, result.node, place, runsBehind) || !isAboutResult(sources, result, runs)) continue;
    if (runs.some((run) => isAboutReading(view, run, result, place))) continue;
    const judged = sides.flatMap(({ areas }) => areas);
    found = { place, result, limit, verdict: undefined, comparison: node, runs, judged };
  }
  return found;
}

/** Whether a number is a result that a programme limits, or near one and nothing else that the method computes. */
function isAboutResult({ figures, tests }: Sources, { value }: Operand, runs: readonly EnteredRun[]): boolean {
  const own = runs.flatMap((run) => figures.listFigures(run));
  const same = own.filter((figure) => Math.abs(figure.value - value) <= 1e-6 * Math.abs(value));
  const limited: readonly string[] = limitedQuantities;
  if (same.length > 0) return same.some(({ symbol }) => limited.includes(symbol));
  return runs.some((run) =>
    limitedQuantities.some((quantity) =>
      figures
        .listResults(tests.findTestOf(run), quantity)
        .some((known) => value / known.value < mostRatio && known.value / value < mostRatio),
    ),
  );
}

/** Whether a comparison decides on a reading alone: it marks those that count, or stands in a reading's own line and depends on no other. */
function isAboutReading(view: Inspector, run: EnteredRun, { areas }: Operand, place: Place): boolean {
  const { include, readings, pressures } = run;
  if (include?.sheet === place.sheet && isInside(include, place.row, place.column)) return true;
  const line = runsAcross(pressures) ? "column" : "row";
  const isInLine = ({ pressure }: EnteredReading): boolean =>
    pressure.sheet === place.sheet && pressure[line] === place[line];
  const others = readings.filter((reading) => !isInLine(reading));
  const flows = new Set(others.flatMap((reading) => reading.flows.map(placeKey)));
  return others.length > 0 && others.length < readings.length && !view.dependsOn(areas, flows);
}

/** Functions that make something else of a leakage: a count, a distance, a spread. */
const otherMeasures =
  /^(COUNT|ABS$|SQRT|SUMSQ|STDEV|VAR|ROWS?$|COLUMNS?$|MATCH|XMATCH|RANK|LEN$|SIGN$|MOD$|SLOPE|RSQ|CORREL|LN$|LOG)/;
const deepest = 8;
/** Wider ranges are not walked through. */
const mostCells = 12;

/** Whether a number is no leakage by the way it is computed: a count, a difference, or a quotient of measured figures such as a spread in per cent. */
function isOtherMeasure(
  view: Inspector,
  node: Node,
  place: Place,
  runsBehind: ReturnType<typeof createRunFinder>,
  depth = 0,
): boolean {
  if (depth > deepest) return false;
  const isMeasured = (part: Node) => runsBehind(readArgument(view, part, place).areas).length > 0;
  const isOther = (part: Node) => isOtherMeasure(view, part, place, runsBehind, depth + 1);
  if (node.type === "operation") {
    if (node.operator === "/" && isMeasured(node.left) && isMeasured(node.right)) return true;
    return [node.left, node.right].some(isOther);
  }
  if (node.type === "call") {
    if (otherMeasures.test(node.name)) return true;
    // What a condition or the key of a look-up asks does not become the value.
    const passed = node.name === "IF" ? node.arguments.slice(1) : node.name === "INDEX" ? [] : node.arguments;
    return passed.some((part) => part !== null && isOther(part));
  }
  if (node.type === "sign" || node.type === "single") return isOther(node.operand);
  if (node.type !== "area" && node.type !== "name") return false;
  return view.resolveNode(node, place).some((area) => {
    const cells = view.listCells(area);
    return cells.length <= mostCells && cells.some((cell) => isOtherCell(view, cell, runsBehind, depth));
  });
}

function isOtherCell(
  view: Inspector,
  cell: Place,
  runsBehind: ReturnType<typeof createRunFinder>,
  depth: number,
): boolean {
  const root = view.findOwner(cell) ? undefined : view.parseFormulaAt(cell)?.root;
  return root !== undefined && isOtherMeasure(view, root, cell, runsBehind, depth + 1);
}
