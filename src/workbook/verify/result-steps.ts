import { areaOf, isSingleCell, type Place, placeKey, type SheetArea } from "../book/area";
import type { EnteredRun } from "../book/tests/entered-runs";
import { limitedQuantities, type MethodFigure, type WholeResult } from "../book/tests/method-figures";
import { type Node, collectDescendants } from "../formula/parse/syntax";
import type { Judgement } from "./judgements";
import { findLimitedQuantities } from "./limit-words";
import type { Review } from "./review";
import { findUnitBehind } from "./units";

/** Constants of the method as workbooks round them (1.204, 287.05) change a result by less; anything that flatters a house more needs a reason. */
const roundedConstants = 5e-4;
const mostRatio = 1.7;
/** A figure on the way is recognized within this. */
const sameFigure = 1e-4;
/** Longer ranges on the way to a result are not walked through. */
const mostCells = 400;

/** A result that is judged but that the method does not compute from the readings behind it. */
export interface UnexplainedResult {
  /** Cells from which on the figures are no longer the method's. */
  readonly places: readonly Place[];
  /** What the method computes for the same quantity; the nearest where several are possible. */
  readonly expected: WholeResult;
  /** Figures typed in that the method does not take, but that the step uses. */
  readonly typed: readonly Place[];
  /** What the step takes from the runs, where it takes the method's figures. */
  readonly uses: readonly { readonly figure: MethodFigure; readonly run: EnteredRun; readonly place: Place }[];
}

/**
 * Follows a judged result back to the readings, as far as the method's own figures do not explain it. "explained" if they do, or if it is worse than they are,
 * which flatters nobody; "another quantity" if nothing says which of the method's figures it should be.
 */
export function reviewResult(
  review: Review,
  judgement: Judgement,
): UnexplainedResult | "explained" | "another quantity" {
  const { result, runs } = judgement;
  if (runs.length === 0 || !(result.value > 0)) return "another quantity";
  const walk = new Walk(review, runs);
  if (walk.isOtherCallsFigure(result.areas, result.value)) return "explained";
  const isSame = ({ value }: WholeResult): boolean => isExplained(value, judgement);
  const onTheWay = listPossibleResults(review, judgement, listQuantities(review, judgement));
  if (onTheWay.some(isSame)) return "explained";
  // A result of several tests, such as that of a building from its flats, has more ways to be made.
  const isOfOneTest = listTestsBehind(review, judgement).length === 1;
  const limited = isOfOneTest
    ? listPossibleResults(review, judgement, findLimitedQuantities(review.view, judgement.limit))
    : [];
  if (limited.some(isSame)) return "explained";
  // Where the limit does not name its quantity, a figure far from all is another one.
  const possible = limited.length > 0 ? limited : onTheWay.filter(({ value }) => isWithinRatio(value, result.value));
  const flattering = possible.filter(({ value }) => value > result.value);
  const [first, ...others] = flattering;
  if (!first) return possible.length > 0 ? "explained" : "another quantity";
  const expected = others.reduce((best, one) => (one.value < best.value ? one : best), first);
  const places = walk.locate(judgement);
  return { places, expected, ...walk.describe(places) };
}

const isWithinRatio = (one: number, other: number): boolean => one < mostRatio * other && other < mostRatio * one;

/** The runs that make a judged result: those of the test whose result it is, else all that it depends on. */
export function findJudgedRuns(review: Review, judgement: Judgement): readonly EnteredRun[] {
  const { result, runs } = judgement;
  const same = listPossibleResults(review, judgement, listQuantities(review, judgement)).filter(
    ({ value }) => Math.abs(result.value / value - 1) <= roundedConstants,
  );
  const [first, ...others] = same;
  return first && others.every(({ runs: own }) => own.some((run) => first.runs.includes(run))) ? first.runs : runs;
}

/** The same number, possibly in another unit or computed with rounded constants, or rounded without turning the decision. */
function isExplained(known: number, { result, limit }: Judgement): boolean {
  const { value } = result;
  const gap = value / known - 1;
  if (Math.abs(gap) <= roundedConstants || findUnitBehind(value / known, 1e-4)) {
    // Even a small difference counts where it decides.
    return Math.abs(gap) <= 1e-9 || gap > 0 || known <= limit.value === value <= limit.value || Math.abs(gap) > 0.1;
  }
  const decimals = [0, 1, 2, 3].find((count) => Math.abs(value * 10 ** count - Math.round(value * 10 ** count)) < 1e-9);
  if (decimals === undefined || Math.abs(known - value) > 0.5000001 * 10 ** -decimals) return false;
  return known <= limit.value === value <= limit.value;
}

/** What the tests behind a judgement may be reported as: each test's result, and the mean of several tests. */
function listPossibleResults(review: Review, judgement: Judgement, quantities: readonly string[]): WholeResult[] {
  const { tests, figures } = review;
  const behind = listTestsBehind(review, judgement);
  return quantities.flatMap((quantity) => {
    const ofTests = behind.map((run) => figures.listResults(tests.findTestOf(run), quantity));
    const single = ofTests.flat();
    const [first] = single;
    if (!first || ofTests.length === 1) return single;
    const value = single.reduce((sum, one) => sum + one.value, 0) / single.length;
    return [...single, { ...first, value, runs: single.flatMap((one) => one.runs) }];
  });
}

/** The first run of each test that a judged result depends on. */
const listTestsBehind = ({ tests }: Review, { runs }: Judgement): EnteredRun[] => [
  ...new Set(runs.map((run) => tests.findTestOf(run)[0] ?? run)),
];

/** The quantities of which a judged result has exactly the method's value. */
export function listJudgedQuantities(review: Review, judgement: Judgement): string[] {
  const { result } = judgement;
  const possible = listPossibleResults(review, judgement, listQuantities(review, judgement));
  const same = possible.filter(({ value }) => Math.abs(result.value / value - 1) < 1e-6);
  return [...new Set(same.map(({ quantity }) => quantity))];
}

/** The quantities that a result may be: those whose symbols are written on its way, else every one. */
export function listQuantities(review: Review, { result }: Judgement): string[] {
  const { view } = review;
  const limited: readonly string[] = limitedQuantities;
  const named = new Set<string>();
  const note = (text: unknown): void => {
    if (typeof text === "string" && limited.includes(text.trim())) named.add(text.trim());
  };
  const readNode = (node: Node): void => {
    for (const part of collectDescendants(node)) if (part.type === "constant") note(part.value);
  };
  readNode(result.node);
  const seen = new Set<number>();
  const waiting = result.areas.map((area) => ({ area, depth: 0 }));
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    if (next.depth > 12) continue;
    for (const cell of view.listCells(next.area).slice(0, mostCells)) {
      if (seen.has(placeKey(cell))) continue;
      seen.add(placeKey(cell));
      const owner = view.findOwner(cell);
      if (owner) {
        // One cell of a table of results has its symbol beside it.
        if (isSingleCell(next.area)) note(view.readText({ ...cell, column: cell.column - 1 }));
        continue;
      }
      if (isSingleCell(next.area)) note(view.readText(cell));
      const root = view.parseFormulaAt(cell)?.root;
      if (!root || (review.callAt.get(placeKey(cell))?.id ?? "AVERAGEDRESULT") !== "AVERAGEDRESULT") continue;
      readNode(root);
      for (const area of view.listPrecedents(cell)) waiting.push({ area, depth: next.depth + 1 });
    }
  }
  return named.size > 0 ? [...named] : [...limited];
}

/** A walk from a judged cell towards the readings. */
class Walk {
  private readonly runFigures: { readonly figure: MethodFigure; readonly run: EnteredRun }[];
  private readonly inputs: ReadonlyMap<number, Place>;
  private readonly readings: ReadonlySet<number>;
  private readonly known = new Map<number, readonly Place[]>();

  constructor(
    private readonly review: Review,
    runs: readonly EnteredRun[],
  ) {
    const { view, figures, tests } = review;
    const all = [...new Set(runs.flatMap((run) => tests.findTestOf(run)))];
    const means = limitedQuantities.flatMap((quantity) =>
      all.flatMap((run) =>
        [tests.findTestOf(run), tests.findTestOf(run).filter(({ direction }) => direction === run.direction)].flatMap(
          (group) =>
            figures
              .listResults(group, quantity)
              .map(({ value, unit }) => ({ figure: { symbol: `mean ${quantity}`, value, unit }, run })),
        ),
      ),
    );
    this.runFigures = [...all.flatMap((run) => figures.listFigures(run).map((figure) => ({ figure, run }))), ...means];
    this.readings = new Set(all.flatMap((run) => listMeasuredCells(review, run)));
    this.inputs = view.findUpstream(all.map(({ call }) => areaOf(call.place)));
  }

  /** A figure that another function of the method gives, such as a forecast. */
  isOtherCallsFigure(areas: readonly SheetArea[], value: number): boolean {
    const { view, calls } = this.review;
    const behind = view.findUpstream(areas);
    return calls.some(({ id, place, alone }) => {
      if (ofWholeTests.has(id) || !alone || !behind.has(placeKey(place))) return false;
      const filled = view.evaluation.spills.find(({ address }) => address === view.formatAddress(place));
      const area = filled ? { sheet: place.sheet, ...filled.area } : areaOf(place);
      return view.listUsedPlaces(area).some((cell) => view.readNumber(cell) === value);
    });
  }

  /** The first cells, from the readings on, whose figure the method does not compute. */
  locate({ result, place }: Judgement): readonly Place[] {
    const [area, ...others] = result.areas;
    const start = area && others.length === 0 && isSingleCell(area) ? cellOf(area) : undefined;
    if (!start || this.review.view.readNumber(start) !== result.value) {
      const inner = result.areas.flatMap((one) => this.listCells(one)).flatMap((cell) => this.findUnexplained(cell));
      return inner.length > 0 ? unique(inner) : [place];
    }
    const found = this.findUnexplained(start);
    return found.length > 0 ? unique(found) : [this.followReference(start)];
  }

  /** A cell that only repeats another is not the step. */
  private followReference(place: Place): Place {
    const { view } = this.review;
    let at = place;
    for (let depth = 0; depth < 20; depth++) {
      const root = view.parseFormulaAt(at)?.root;
      const [area] = root?.type === "area" || root?.type === "name" ? view.resolveNode(root, at) : [];
      if (!area || !isSingleCell(area) || view.findOwner(cellOf(area)) || !view.parseFormulaAt(cellOf(area))) return at;
      at = cellOf(area);
    }
    return at;
  }

  private findUnexplained(place: Place): readonly Place[] {
    const key = placeKey(place);
    const known = this.known.get(key);
    if (known) return known;
    this.known.set(key, []);
    const found = this.judgeCell(place);
    this.known.set(key, found);
    return found;
  }

  private judgeCell(place: Place): readonly Place[] {
    const { view, callAt } = this.review;
    const value = view.readNumber(place);
    if (value === undefined || view.isTyped(place) || view.findOwner(place)) return [];
    if (this.findFigure(value) || !this.dependsOnReadings(place)) return [];
    const call = callAt.get(placeKey(place));
    if (call?.alone && call.id !== "AVERAGEDRESULT") return [];
    const inner = this.listPrecedentCells(place).flatMap((cell) => this.findUnexplained(cell));
    return inner.length > 0 ? unique(inner) : [place];
  }

  private dependsOnReadings(place: Place): boolean {
    return this.review.view.dependsOn([areaOf(place)], this.readings);
  }

  findFigure(value: number): { readonly figure: MethodFigure; readonly run: EnteredRun } | undefined {
    const size = Math.abs(value);
    return this.runFigures.find(({ figure }) => Math.abs(Math.abs(figure.value) - size) <= sameFigure * size);
  }

  private listPrecedentCells(place: Place): Place[] {
    return this.review.view.listPrecedents(place).flatMap((area) => this.listCells(area));
  }

  private listCells(area: SheetArea): Place[] {
    return this.review.view.listCells(area).slice(0, mostCells);
  }

  /** What the steps take: figures of the method, and figures typed in that it does not take. */
  describe(places: readonly Place[]): Pick<UnexplainedResult, "typed" | "uses"> {
    const { view } = this.review;
    const read = unique(places.flatMap((place) => this.listPrecedentCells(place)));
    const numbers = read.filter((cell) => view.readNumber(cell) !== undefined);
    const isOutside = (cell: Place) => view.isTyped(cell) && !this.inputs.has(placeKey(cell));
    return {
      typed: numbers.filter(isOutside).slice(0, 3),
      uses: numbers.flatMap((place) => {
        const found = view.findOwner(place) ? undefined : this.findFigure(view.readNumber(place) ?? NaN);
        return found && !view.isTyped(place) ? [{ ...found, place }] : [];
      }),
    };
  }
}

const ofWholeTests = new Set(["TESTRESULT", "RESULTCARD", "VALIDITYCHECKS", "AVERAGEDRESULT", "UNCERTAINTYBUDGET"]);

/** The cells that hold what was read from the gauges. */
function listMeasuredCells({ view }: Review, { pressures, flows, before, after }: EnteredRun): number[] {
  return [pressures, flows, before, after].flatMap((area) => (area ? view.listCells(area).map(placeKey) : []));
}

const cellOf = ({ sheet, top, left }: SheetArea): Place => ({ sheet, row: top, column: left });

function unique(places: readonly Place[]): Place[] {
  return [...new Map(places.map((place) => [placeKey(place), place])).values()];
}
