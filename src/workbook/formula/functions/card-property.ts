import { ErrorValue } from "../../model";
import { isError } from "../values/coerce";
import { takes, type FunctionTable } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { isSingleCell } from "../values/value";
import { sentence } from "../../file/problem";

/** `=A1.n50`, which a file stores as `_FV(A1,"n50")`: a property of the card in a cell. */
export const cardProperty: FunctionTable = {
  _FV: takes(["reference", "text"], ([reference, name], caller) => {
    const { area } = reference;
    if (!area || !isSingleCell(area)) return refuse("the properties of several cells at once");
    const value = caller.scalar(reference);
    if (isError(value)) return value;
    const card = caller.grid.slotAt(area.sheet, area.top, area.left)?.card;
    if (!card) return refuse("a property of a cell that holds no card of the add-in");
    return card.get(name.toLowerCase()) ?? new ErrorValue("#FIELD!", sentence`the card has no property ${name}`);
  }),
};
