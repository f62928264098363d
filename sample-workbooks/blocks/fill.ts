import { addInRegistry } from "../../src/cli/shared/add-in";
import { cellKey, evaluateBook, openWorkbook, writeBack } from "../../src/workbook/index";
import { addressOf } from "./address";

/**
 * The workbook with every formula's value stored, as the project's own evaluator computes it. A cell that cannot be evaluated, and an array
 * that does not fill exactly the range that the recipe gave it, is an error of the recipe.
 */
export function fill(bytes: Uint8Array): Uint8Array {
  const opened = openWorkbook(bytes);
  const evaluation = evaluateBook(opened.book, { addIn: addInRegistry() });
  const patches = evaluation.cells.map(({ sheet, row, column, address, outcome }) => {
    if (!outcome.evaluated)
      throw new Error(`${address} is not evaluated: ${outcome.reason} (${outcome.origin ?? address})`);
    return { sheet, row, column, value: outcome.value };
  });
  const places = new Map(evaluation.cells.map((cell) => [cell.address, cell]));
  for (const { address, area } of evaluation.spills) {
    const place = places.get(address);
    const formula = place && opened.book.sheets[place.sheet]?.cells.get(cellKey(place.row, place.column))?.formula;
    if (formula?.array?.bottom !== area.bottom || formula.array.right !== area.right) {
      throw new Error(
        `${address} fills another range than the recipe gave it, down to ${addressOf(area.bottom, area.right)}`,
      );
    }
  }
  return writeBack(opened, patches);
}
