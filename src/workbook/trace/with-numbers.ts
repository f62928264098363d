import { tokenize } from "@borgar/fx/xlsx";
import { isSingleCell, type Place } from "../book/area";
import type { Inspector } from "../book/inspector";
import { toTypedForm } from "../formula/parse/formula-text";
import { type CellValue, ErrorValue } from "../model";
import { formatCellValue } from "../words";

/** A formula longer than this says less with numbers than without. */
const longest = 400;

const digits = 5;

/**
 * A formula with the values of the single cells that it reads put in, and its result: "274.8 / 480 = 0.5725". "" if it reads no single number,
 * or if that would be no easier to read than the formula.
 */
export function putNumbersIn(view: Inspector, place: Place): string {
  const text = view.findCell(place)?.formula?.text;
  if (text === undefined || text.length > longest) return "";
  let numbers = 0;
  const parts = tokenize(toTypedForm(text), { withLocation: false }).map(({ type, value }) => {
    if (type === "fx_prefix") return "";
    if (type === "operator") return /^[-+*/^=<>&]|^(<>|<=|>=)$/.test(value) ? ` ${spellOperator(value)} ` : value;
    if (type !== "range" && type !== "range_named") return value;
    const area = view.findNamedArea(value, place.sheet);
    if (!area || !isSingleCell(area)) return value;
    const read = view.readValue({ sheet: area.sheet, row: area.top, column: area.left });
    if (typeof read === "number") numbers += 1;
    return formatOperand(read);
  });
  if (numbers === 0) return "";
  const formula = parts.join("").replace(/ {2,}/g, " ").replace(/\( /g, "(").trim();
  return `${formula} = ${formatOperand(view.readValue(place))}`;
}

const spellOperator = (sign: string): string => ({ "*": "×", "-": "−", "<=": "≤", ">=": "≥", "<>": "≠" })[sign] ?? sign;

function formatOperand(value: CellValue): string {
  if (value === null) return "blank";
  if (value instanceof ErrorValue) return value.code;
  return formatCellValue(value, digits).replace(/^-/, "−");
}
