import { type Place, type SheetArea, shareCells } from "../../book/area";
import type { Inspector } from "../../book/inspector";
import type { Node } from "../../formula/parse/syntax";
import { showFormula } from "../../formatting";
import type { Finding } from "../finding";
import type { Check } from "../review";

/** Sums on the way to a result that take the same cells twice: SUM(F2:F11)+F2. */
export const findCountedTwice: Check = ({ view, chain }) =>
  [...chain.values()].flatMap((place): Finding[] => {
    const root = view.parseFormulaAt(place)?.root;
    const terms = root ? listTerms(view, root, place) : [];
    const twice = terms.find((area, index) => terms.slice(0, index).some((other) => shareCells(area, other)));
    if (!twice || !view.listCells(twice).some((cell) => (view.readNumber(cell) ?? 0) !== 0)) return [];
    return [
      {
        kind: "counted twice",
        severity: "warning",
        place: view.formatAddress(place),
        what: `${showFormula(view.findCell(place)?.formula?.text ?? "")} adds ${view.formatArea(twice)} twice.`,
        why: "A volume or a flow that is counted twice changes the result.",
        todo: "Add these cells once, or state why they count twice.",
      },
    ];
  });

/** The areas that a sum adds, each as often as it is written. */
function listTerms(view: Inspector, node: Node, place: Place): SheetArea[] {
  if (node.type === "operation" && node.operator === "+")
    return [...listTerms(view, node.left, place), ...listTerms(view, node.right, place)];
  if (node.type === "call" && node.name === "SUM")
    return node.arguments.flatMap((part) => (part ? listTerms(view, part, place) : []));
  return node.type === "area" || node.type === "name" ? view.resolveNode(node, place) : [];
}
