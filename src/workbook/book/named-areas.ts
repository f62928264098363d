import { unrollChain, type Node } from "../formula/parse/syntax";
import type { Book } from "../model";
import type { SheetArea } from "./area";
import { recallFormulas } from "./formulas";

/** The areas that a defined name of the whole workbook refers to, in its order; none if there is no such name, or if it is a formula. */
export function listNamedAreas(book: Book, wanted: string): readonly SheetArea[] {
  const formulas = recallFormulas(book);
  const home = { sheet: 0, row: 0, column: 0 };
  const named = formulas.resolveName({ type: "name", name: wanted, sheet: "" }, home);
  const listAreas = (node: Node): readonly SheetArea[] => {
    if (node.type === "area") return formulas.resolveAreas(node, home);
    if (node.type !== "join") return [];
    const { first, steps } = unrollChain(node);
    return steps.every(({ operator }) => operator === ",")
      ? [first, ...steps.map(({ right }) => right)].flatMap(listAreas)
      : [];
  };
  return named ? listAreas(named.root) : [];
}
