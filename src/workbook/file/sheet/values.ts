import { type CellValue, type ErrorCode, ErrorValue } from "../../model";
import type { Archive } from "../archive";
import { limits } from "../limits";
import { sentence, WorkbookProblem } from "../problem";
import { decodeText, StringItem } from "../xml/text";
import type { XmlReader } from "../xml/xml";

/** The shared strings in order (ECMA-376 part 1, 18.4.9). */
export function readSharedStrings(archive: Archive, partName: string): string[] {
  const strings: string[] = [];
  const item = new StringItem();
  const reader: XmlReader = {
    open: (name, attributes, part) => item.open(name, attributes, part),
    addText: (text) => item.addText(text),
    close(name, part) {
      item.close(name, part);
      if (name !== "si") return;
      if (strings.length >= limits.strings) {
        throw new WorkbookProblem("too large", `the workbook has more than ${limits.strings} shared strings`);
      }
      strings.push(item.take());
    },
  };
  archive.read(partName, reader, "sst");
  return strings;
}

const millisecondsOfADay = 86_400_000;

const isoDuration = /^(-?)P(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?(?:(\d+(?:\.\d+)?)S)?)?$/;

/** An ISO 8601 duration of days and less ("P1DT12H"), or a time of day or more ("26:30:00"), in days. */
function parseDuration(text: string): number | undefined {
  const clock = /^(-?)()(\d{2,}):(\d{2})(?::(\d{2}(?:\.\d+)?))?$/.exec(text);
  const match = clock ?? (/\d/.test(text) ? isoDuration.exec(text) : null);
  if (!match) return undefined;
  const [, sign, days, hours, minutes, seconds] = match;
  const size = [Number(days ?? 0) * 24 + Number(hours ?? 0), Number(minutes ?? 0), Number(seconds ?? 0)];
  const total = size.reduce((sum, part) => sum * 60 + part, 0) / 86_400;
  return sign === "-" ? -total : total;
}

/**
 * The serial number of an ISO 8601 date, time or both, as a cell of type "d" holds it (ECMA-376 part 1, 18.18.11 ST_CellType, 18.17.4).
 * A time alone is a fraction of a day, a duration its days. Undefined if the text is not such a date.
 */
function parseIsoDate(text: string, date1904: boolean): number | undefined {
  const duration = parseDuration(text);
  if (duration !== undefined) return duration;
  if (!/^\d{4}-\d{2}-\d{2}(T\d{2}:\d{2}(:\d{2}(\.\d+)?)?Z?)?$/.test(text)) return undefined;
  const time = Date.parse(text.length === 10 || text.endsWith("Z") ? text : `${text}Z`);
  if (!Number.isFinite(time)) return undefined;
  if (date1904) return (time - Date.UTC(1904, 0, 1)) / millisecondsOfADay;
  const serial = (time - Date.UTC(1899, 11, 30)) / millisecondsOfADay;
  // Excel counts a non-existent 29 February 1900, so days before it are one lower. Versions that write 30 December 1899 mean 0 by it.
  return serial >= 1 && serial < 61 ? serial - 1 : serial;
}

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

/** The meaning of the text of a cell's <v>; the caller's `problem` makes an error naming the cell. */
export interface ValueContext {
  readonly strings: readonly string[];
  readonly date1904: boolean;
  /** Called for a date of which versions of Excel write other days. */
  noteEarlyDate(): void;
  problem(what: string): Error;
}

/**
 * The value of a cell by its type attribute (ECMA-376 part 1, 18.18.11): n number, s shared string, str formula text, b boolean,
 * e error, d ISO date. `text` is undefined when the cell has no <v>.
 */
export function parseCellValue(type: string, text: string | undefined, context: ValueContext): CellValue {
  if (text === undefined) return type === "str" ? "" : null;
  switch (type) {
    case "n":
      return parseNumber(text, context);
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
      const serial = parseIsoDate(text, context.date1904);
      if (serial === undefined) throw context.problem(sentence`holds "${text}" as a date`);
      if (/^\d{4}-/.test(text) && !context.date1904 && serial < 60) context.noteEarlyDate();
      return serial;
    }
    default:
      throw context.problem(sentence`has the unknown type "${type}"`);
  }
}

function parseNumber(text: string, context: ValueContext): number | null {
  const trimmed = text.trim();
  if (trimmed === "") return null;
  const value = Number(trimmed);
  if (!Number.isFinite(value) || !/^[-+.\d][-+.\deE]*$/.test(trimmed))
    throw context.problem(sentence`holds "${text}" as a number`);
  return value;
}
