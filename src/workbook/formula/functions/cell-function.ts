import { columnLetters } from "../parse/address";
import { takes, type FunctionTable } from "../calls/function-entry";
import { refuse } from "../values/refusal";
import { errors } from "../values/value";
import { sentence } from "../../file/problem";

/** What CELL tells of a cell, as far as it depends on nothing but the workbook. */
export const cellFunction: FunctionTable = {
  CELL: takes(["scalar", "reference?"], ([kind, reference], caller) => {
    if (typeof kind !== "string") return errors.value;
    const area = reference?.area;
    if (!reference || !area) return refuse("CELL without one reference depends on the selected cell");
    const sheet = area.sheet === caller.place.sheet ? "" : undefined;
    switch (kind.toLowerCase()) {
      case "row":
        return area.top + 1;
      case "col":
        return area.left + 1;
      case "address":
        return sheet === "" ? `$${columnLetters(area.left)}$${area.top + 1}` : refuse("CELL address of another sheet");
      case "contents":
        return caller.grid.value(area.sheet, area.top, area.left);
      case "type": {
        const value = caller.grid.value(area.sheet, area.top, area.left);
        return value === null ? "b" : typeof value === "string" ? "l" : "v";
      }
      case "filename":
        return refuse('CELL("filename") depends on where the file lies');
      default:
        return refuse(sentence`CELL with "${kind}"`);
    }
  }),
};
