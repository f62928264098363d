import { ErrorValue, type CellValue, type ErrorCode } from "../../model";
import { sentence } from "../problem";
import { serialOfIsoDate } from "./dates";
import { decodeText } from "../xml/text";

const errorCodes: Record<ErrorCode, true> = {
  "#NULL!": true,
  "#DIV/0!": true,
  "#VALUE!": true,
  "#REF!": true,
  "#NAME?": true,
  "#NUM!": true,
  "#N/A": true,
  "#SPILL!": true,
  "#CALC!": true,
  "#GETTING_DATA": true,
  "#FIELD!": true,
  "#BLOCKED!": true,
  "#CONNECT!": true,
  "#UNKNOWN!": true,
  "#BUSY!": true,
};

/** Whether a text is one of Excel's error values. */
export function isErrorCode(text: string): text is ErrorCode {
  return Object.hasOwn(errorCodes, text);
}

/** What the text of a cell's <v> means; the caller's `problem` makes an error that names the cell. */
export interface ValueContext {
  readonly strings: readonly string[];
  readonly date1904: boolean;
  problem(what: string): Error;
}

/**
 * The value of a cell by its type attribute (ECMA-376 part 1, 18.18.11): n number, s shared string, str formula text, b boolean,
 * e error, d ISO date. `text` is undefined when the cell has no <v>.
 */
export function cellValue(type: string, text: string | undefined, context: ValueContext): CellValue {
  if (text === undefined) return type === "str" ? "" : null;
  switch (type) {
    case "n":
      return numberValue(text, context);
    case "s": {
      const string = context.strings[Number(text)];
      if (string === undefined || text.trim() === "")
        throw context.problem(sentence`points to shared string ${text}, which does not exist`);
      return string;
    }
    case "str":
      return decodeText(text);
    case "b":
      if (text !== "0" && text !== "1" && text !== "true" && text !== "false")
        throw context.problem(sentence`holds "${text}" as a truth value`);
      return text === "1" || text === "true";
    case "e":
      if (!isErrorCode(text)) throw context.problem(sentence`holds the unknown error value "${text}"`);
      return new ErrorValue(text);
    case "d": {
      const serial = serialOfIsoDate(text, context.date1904);
      if (serial === undefined) throw context.problem(sentence`holds "${text}" as a date`);
      return serial;
    }
    default:
      throw context.problem(sentence`has the unknown type "${type}"`);
  }
}

function numberValue(text: string, context: ValueContext): number | null {
  const trimmed = text.trim();
  if (trimmed === "") return null;
  const value = Number(trimmed);
  if (!Number.isFinite(value) || !/^[-+.\d][-+.\deE]*$/.test(trimmed))
    throw context.problem(sentence`holds "${text}" as a number`);
  return value;
}
