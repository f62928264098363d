import { type Place, type SheetArea, shareCells } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import { type Node, type OperationNode } from "../../formula/parse/syntax";
import { showFormula } from "../../formatting";
import { withoutBlanking } from "../blanking";
import type { Finding } from "../finding";
import type { Check } from "../review";

/** Sums on the way to a result that take the same cells twice: SUM(F2:F11)+F2. */
export const findCountedTwice: Check = ({ view, chain }) =>
  [...chain.values()].flatMap((place): Finding[] => {
    const root = view.parseFormulaAt(place)?.root;
    const terms = root ? listTerms(view, root, place) : [];
    const again = terms.find(({ area }, index) => terms.slice(0, index).some((other) => shareCells(area, other.area)));
    const twice = again?.area;
    if (!twice || !view.listCells(twice).some((cell) => (view.readNumber(cell) ?? 0) !== 0)) return [];
    return [
      {
        kind: "counted twice",
        severity: "warning",
        place: view.formatAddress(place),
        what: `${showFormula(view.findCell(place)?.formula?.text ?? "")} adds ${view.formatArea(twice)} ${again.isShare ? "and then a share of it once more" : "twice"}.`,
        why: "A volume or a flow that is counted twice changes the result.",
        todo: "Add these cells once, or state why they count twice.",
      },
    ];
  });

/** What a sum adds. */
interface Term {
  readonly area: SheetArea;
  /** Only a written share of it. */
  readonly isShare: boolean;
}

/** The areas that a sum adds, whole or a share of them, each as often as it is written; within a formula that is otherwise left blank too. */
function listTerms(view: Inspector, node: Node, place: Place, isShare = false): Term[] {
  const whole = withoutBlanking(node);
  if (whole !== node) return listTerms(view, whole, place, isShare);
  if (node.type === "operation" && node.operator === "+")
    return [...listTerms(view, node.left, place, isShare), ...listTerms(view, node.right, place, isShare)];
  const share = node.type === "operation" && /^[*/]$/.test(node.operator) ? findShared(node) : undefined;
  if (share) return listTerms(view, share, place, true);
  if (node.type === "call" && node.name === "SUM")
    return node.arguments.flatMap((part) => (part ? listTerms(view, part, place, isShare) : []));
  return node.type === "area" || node.type === "name"
    ? view.resolveNode(node, place).map((area) => ({ area, isShare }))
    : [];
}

/** What a product takes a written share of: SUM(F2:F4) in SUM(F2:F4)*0.2. */
function findShared({ left, right, operator }: OperationNode): Node | undefined {
  if (right.type === "constant") return left;
  return left.type === "constant" && operator === "*" ? right : undefined;
}
