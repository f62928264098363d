import { children, type Node } from "../../formula/syntax";
import { isSingleCell } from "../../formula/value";
import { placeKey, type Place } from "../book-view";
import type { Finding } from "../finding";
import type { Check, Review } from "../review";
import { counted, figure, shownFormula } from "../words";

/** Factors near one that have a meaning: densities of air, ninths of a degree, coefficients of discharge. */
const known = [1.2, 1.204, 1.2041, 1.205, 1.225, 1.293, 1.8, 0.6, 0.61, 0.611, 1.44];
/** Differences that have one: degrees, and Sutherland's constant. */
const knownSteps = [273.15, 459.67, 32, 110.4];
/** A lone figure within these times a factor is taken for an adjustment; a whole product of figures within the wider ones. */
const [near, wide] = [1.25, 2];

/** Figures written into formulas on the way to the result, or from there to the cover, that change it a little: a factor of 0.95, a deduction of 0.05. */
export const oddFigures: Check = (review) => {
  const { view } = review;
  const found = new Map<string, { readonly place: Place; readonly what: string; count: number }>();
  for (const place of new Map([...review.chain, ...repeating(review)]).values()) {
    const root = view.parsed(place)?.root;
    if (!root) continue;
    for (const what of adjustments(review, root, place)) {
      const key = `${what} ${view.pattern(place) ?? ""}`;
      const same = found.get(key);
      if (same) same.count++;
      else found.set(key, { place, what, count: 1 });
    }
  }
  return [...found.values()].map((one) => findingOf(review, one));
};

/** Cells that read what is judged, and those that read them: covers and reports. */
function repeating({ view, verdicts }: Review): Map<number, Place> {
  const judged = verdicts.flatMap(({ result }) => (result?.area && isSingleCell(result.area) ? [result.area] : []));
  let read = new Set(judged.map(({ sheet, top, left }) => placeKey({ sheet, row: top, column: left })));
  const found = new Map<number, Place>();
  for (let step = 0; step < 2; step++) {
    const readers = [...view.formulaPlaces()].filter((place) =>
      view
        .precedents(place)
        .some(
          (area) => isSingleCell(area) && read.has(placeKey({ sheet: area.sheet, row: area.top, column: area.left })),
        ),
    );
    read = new Set(readers.map(placeKey));
    for (const place of readers) found.set(placeKey(place), place);
  }
  return found;
}

const comparing = new Set(["=", "<", ">", "<=", ">=", "<>"]);

/** The adjustments of a formula in words, each once; what is only compared is left out. */
function adjustments(review: Review, node: Node, place: Place): string[] {
  if (node.type === "operation" && comparing.has(node.operator)) return [];
  const own = node.type === "operation" ? adjustmentOf(review, node, place) : undefined;
  const inner = children(node).flatMap((child) => (child ? adjustments(review, child, place) : []));
  return [...new Set([...(own === undefined ? [] : [own]), ...inner])];
}

function adjustmentOf(review: Review, node: Node & { type: "operation" }, place: Place): string | undefined {
  if (node.operator === "*" || node.operator === "/") return factorOf(node);
  return node.operator === "+" || node.operator === "-" ? stepOf(review, node, place) : undefined;
}

/** A product with figures in it that come to a little more or less than one. */
function factorOf(node: Node): string | undefined {
  const { figures, others } = factors(node, 1);
  if (others === 0) return undefined;
  const lone = figures.find((value) => value !== 1 && isWithin(value, near) && !isKnown(value));
  const product = figures.reduce((all, value) => all * value, 1);
  const odd =
    lone ?? (others === 1 && figures.length > 1 && isWithin(product, wide) && !isKnown(product) ? product : undefined);
  const single =
    others === 1 && figures.length === 1 && isWithin(product, wide) && !isKnown(product) ? product : undefined;
  const factor = odd ?? single;
  return factor === undefined ? undefined : `multiplies by ${figure(factor, 6)}`;
}

const isWithin = (value: number, times: number): boolean => value < times && value > 1 / times;
const isKnown = (value: number): boolean =>
  [1, ...known].some((one) => Math.abs(value / one - 1) < 1e-9 || Math.abs(value * one - 1) < 1e-9);

/** The figures of a product, those divided by as their reciprocals, and how many other factors it has. */
function factors(node: Node, sign: 1 | -1): { figures: number[]; others: number } {
  if (node.type === "operation" && (node.operator === "*" || node.operator === "/")) {
    const [left, right] = [
      factors(node.left, sign),
      factors(node.right, node.operator === "/" ? (-sign as 1 | -1) : sign),
    ];
    return { figures: [...left.figures, ...right.figures], others: left.others + right.others };
  }
  if (node.type === "constant" && typeof node.value === "number") return { figures: [node.value ** sign], others: 0 };
  return { figures: [], others: 1 };
}

/** A figure added or taken away that is small beside what it changes; whole numbers count rows and days. */
function stepOf({ view }: Review, node: Node & { type: "operation" }, place: Place): string | undefined {
  const [step, other] = node.right.type === "constant" ? [node.right, node.left] : [node.left, node.right];
  if (step.type !== "constant" || typeof step.value !== "number" || Number.isInteger(step.value)) return undefined;
  if (other.type === "constant" || knownSteps.includes(step.value)) return undefined;
  const [value = null] = view.valuesOfNode(other, place) ?? [];
  if (typeof value !== "number") return undefined;
  const share = Math.abs(step.value / value);
  if (!(share < 0.5 && share > 1e-6)) return undefined;
  return node.operator === "-" ? `takes away ${figure(step.value, 6)}` : `adds ${figure(step.value, 6)}`;
}

function findingOf({ view }: Review, { place, what, count }: { place: Place; what: string; count: number }): Finding {
  const more = count > 1 ? `, and ${counted(count - 1, "further cell")} likewise` : "";
  return {
    kind: "figure in a formula",
    severity: "doubtful",
    place: view.address(place),
    what: `${shownFormula(view.cell(place)?.formula?.text ?? "")} ${what}${more}; no cell shows this figure with its reason.`,
    why: "What is judged, or shown of it, goes through this cell; an adjustment written into a formula is seen by nobody who reads the sheet.",
    todo: "Ask for the reason, and have the figure put into a cell of its own with its source.",
  };
}
