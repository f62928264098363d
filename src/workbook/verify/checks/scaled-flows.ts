import { mean } from "../../../core/index";
import { isSingleCell, type Place, placeKey } from "../../book/area";
import { type EnteredRun, runsAcross } from "../../book/tests/entered-runs";
import { formatCellValue, formatCount, formatFigure, showFormula } from "../../formatting";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { findTurnedPass } from "../probes";
import { describeAdjustments, findUnitBehind } from "../units";

/** Flows as a formula changes them: each from the typed figure of its own line, all by one factor or one step. */
interface Scaling {
  readonly direction: EnteredRun["direction"];
  readonly flows: readonly [Place, ...Place[]];
  readonly sources: readonly Place[];
  readonly words: string;
}

/** Fewer pairs show no rule. */
const leastPairs = 3;
/** A factor below this makes another quantity of the figure: an area of a speed, a flow of a pressure. */
const leastFactor = 0.5;
/** Flows rounded to a tenth leave a factor, or a step, this uncertain, relative to the flow. */
const rounding = 2e-3;

/**
 * Flows that a formula makes smaller than those typed in beside them, all by one factor that is no unit, or by one step. What is computed along the way, such as
 * a density, is not judged: its own cells are.
 */
export const checkScaledFlows: Check = (review) => {
  const scalings = new Map<number, Scaling>();
  for (const run of review.runs) {
    const scaling = findScaling(review, run);
    const [first] = scaling?.flows ?? [];
    if (scaling && first) scalings.set(placeKey(first), scaling);
  }
  // Each alone may leave a pass that all together would not.
  const turned = findTurnedPass(
    review,
    [...scalings.values()].flatMap(({ flows, sources }) =>
      flows.map((place, index) => ({ place, text: review.view.formatAddress(sources[index]!) })),
    ),
  );
  return [...scalings.values()].map((scaling) => reportScaling(review, scaling, turned));
};

function findScaling(review: Review, run: EnteredRun): Scaling | undefined {
  const { view } = review;
  const pairs = run.readings.flatMap(({ flows }) => {
    const [flow, ...others] = flows;
    const source = flow && others.length === 0 ? findSource(review, run, flow) : undefined;
    return flow && source ? [{ flow, source }] : [];
  });
  const [first, ...others] = pairs.map(({ flow }) => flow);
  if (!first || pairs.length < leastPairs || pairs.length < run.readings.length) return undefined;
  const root = view.parseFormulaAt(first)?.root;
  // A figure within the formula is told as such.
  if (!root || describeAdjustments(review, root, first, false).length > 0) return undefined;
  const figures = pairs.map(({ flow, source }) => ({
    flow: view.readNumber(flow) ?? NaN,
    source: view.readNumber(source) ?? NaN,
  }));
  const factors = figures.map(({ flow, source }) => flow / source);
  const steps = figures.map(({ flow, source }) => source - flow);
  const largest = Math.max(...figures.map(({ source }) => source));
  const [factor, step] = [mean(factors), mean(steps)];
  const sources = pairs.map(({ source }) => source);
  const parts = { direction: run.direction, flows: [first, ...others], sources } as const;
  if (isConstant(factors, rounding * factor))
    return factor > leastFactor && factor < 1 - rounding && !findUnitBehind(factor, rounding)
      ? { ...parts, words: `multiplied by ${formatFigure(factor, 4)}` }
      : undefined;
  return isConstant(steps, rounding * largest) && step > rounding * largest
    ? { ...parts, words: `less ${formatFigure(step, 4)}` }
    : undefined;
}

const isConstant = (values: readonly number[], within: number): boolean =>
  Math.max(...values) - Math.min(...values) <= within;

/** The one typed figure of its own line from which a formula makes a flow, with nothing computed beside it. */
function findSource({ view }: Review, { pressures }: EnteredRun, flow: Place): Place | undefined {
  if (!view.parseFormulaAt(flow) || view.findOwner(flow)) return undefined;
  const line = runsAcross(pressures) ? "column" : "row";
  const read = view.listPrecedents(flow).map((area) => ({ sheet: area.sheet, row: area.top, column: area.left, area }));
  if (read.some((cell) => !isSingleCell(cell.area) || !view.isTyped(cell))) return undefined;
  const [source, ...others] = read.filter((cell) => cell.sheet === flow.sheet && cell[line] === flow[line]);
  if (!source || others.length > 0 || !((view.readNumber(source) ?? 0) > 0)) return undefined;
  return { sheet: source.sheet, row: source.row, column: source.column };
}

function reportScaling(
  { view }: Review,
  { direction, flows, words }: Scaling,
  turned: ReturnType<typeof findTurnedPass>,
): Finding {
  const [first] = flows;
  const effect = turned
    ? ` With every such flow as typed, ${view.formatAddress(turned.place)} would give ${formatCellValue(turned.value)} instead of a pass.`
    : "";
  return {
    kind: "flows adjusted",
    severity: turned ? "warning" : "note",
    decides: turned !== undefined,
    place: view.formatAddress(first),
    what: `${formatCount(flows.length, "flow")} of ${direction} are typed figures ${words}: ${showFormula(view.findCell(first)?.formula?.text ?? "")}.${effect}`,
    why: "Besides its unit, its device's certificate and the densities, a flow needs no correction.",
    todo: "Ask for the certificate that gives the correction, or take the flows as the device showed them.",
  };
}
