import type { ErrorValue } from "../../model";
import { type FunctionTable, takes } from "../calls/function-entry";
import { isError, toInteger, toText } from "../values/coerce";
import { refuse } from "../values/refusal";
import { errors, type Scalar } from "../values/value";
import { readPlainNumbers } from "./rounding";

type Plain = Exclude<Scalar, ErrorValue>;

const romanDigits: readonly (readonly [string, number])[] = [
  ["M", 1000],
  ["CM", 900],
  ["D", 500],
  ["CD", 400],
  ["C", 100],
  ["XC", 90],
  ["L", 50],
  ["XL", 40],
  ["X", 10],
  ["IX", 9],
  ["V", 5],
  ["IV", 4],
  ["I", 1],
];

function writeRoman(value: number): string {
  let rest = value;
  let text = "";
  for (const [letters, size] of romanDigits) for (; rest >= size; rest -= size) text += letters;
  return text;
}

/** Roman numerals as ROMAN writes them; of shorter and of longer forms it is not certain which ones Excel reads. */
function readRoman(given: string): Scalar {
  const text = given.trim().toUpperCase();
  const digits = text.replace(/^-/, "");
  if (!/^[IVXLCDM]*$/.test(digits)) return errors.value;
  let value = 0;
  for (let rest = digits; rest !== "";) {
    const [letters, size] = romanDigits.find(([start]) => rest.startsWith(start)) ?? ["", 0];
    value += size;
    rest = rest.slice(letters.length);
  }
  if (value > 3999 || writeRoman(value) !== digits) return refuse("ARABIC of a numeral that is not in the usual form");
  return text.startsWith("-") ? -value + 0 : value;
}

/** A system of numbers of up to ten digits, the first half of which are negative (two's complement). */
interface System {
  readonly radix: number;
  /** How many numbers there are. */
  readonly size: number;
}

const systems: Readonly<Record<string, System>> = {
  BIN: { radix: 2, size: 2 ** 10 },
  OCT: { radix: 8, size: 2 ** 30 },
  HEX: { radix: 16, size: 2 ** 40 },
};

function readDigits(given: Plain, { radix, size }: System): number | ErrorValue {
  if (typeof given === "boolean") return errors.value;
  const text = toText(given);
  if (isError(text)) return text;
  const digits = "0123456789abcdef".slice(0, radix);
  if (text.length > 10 || [...text.toLowerCase()].some((digit) => !digits.includes(digit))) return errors.number;
  const value = text === "" ? 0 : parseInt(text, radix);
  return value >= size / 2 ? value - size : value;
}

function writeDigits(value: number, places: Plain | undefined, { radix, size }: System): Scalar {
  if (value < -size / 2 || value >= size / 2) return errors.number;
  const text = (value < 0 ? value + size : value).toString(radix).toUpperCase();
  if (places === undefined) return text;
  const numbers = readPlainNumbers([places]);
  if (isError(numbers)) return numbers;
  const width = toInteger(numbers[0] ?? 0);
  // Negative numbers always have ten digits.
  if (value < 0 && width >= 1 && width <= 10) return text;
  return width < text.length || width > 10 || width < 1 ? errors.number : text.padStart(width, "0");
}

/** BIN2HEX and its like; DEC is a plain number. */
function defineConversion(from: System | undefined, to: System | undefined) {
  const read = (given: Plain): number | ErrorValue => {
    if (from) return readDigits(given, from);
    const numbers = readPlainNumbers([given]);
    return isError(numbers) ? numbers : toInteger(numbers[0] ?? 0);
  };
  if (!to) return takes(["scalar"], ([given]) => read(given));
  return takes(["scalar", "scalar??"], ([given, places]) => {
    const value = read(given);
    return isError(value) ? value : writeDigits(value, places, to);
  });
}

const names = ["DEC", ...Object.keys(systems)];
const conversions = names.flatMap((from) =>
  names
    .filter((to) => to !== from)
    .map((to) => [`${from}2${to}`, defineConversion(systems[from], systems[to])] as const),
);

const isRadix = (radix: number): boolean => radix >= 2 && radix <= 36;

/** Numbers written in Roman numerals and in other systems than the decimal one. */
export const numerals: FunctionTable = {
  ROMAN: takes(["number", "scalar??"], ([given, form = 0]) => {
    const value = toInteger(given);
    if (value < 0 || value > 3999) return errors.value;
    return form === 0 || form === true ? writeRoman(value) : refuse("ROMAN in a shorter form");
  }),
  ARABIC: takes(["text"], ([text]) => readRoman(text)),
  BASE: takes(["number", "number", "number??"], ([given, radix, least = 0]) => {
    const [value, base, width] = [toInteger(given), toInteger(radix), toInteger(least)];
    if (value < 0 || value >= 2 ** 53 || !isRadix(base) || width < 0 || width > 255) return errors.number;
    return value.toString(base).toUpperCase().padStart(width, "0");
  }),
  DECIMAL: takes(["text", "number"], ([text, radix]) => {
    const base = toInteger(radix);
    if (!isRadix(base)) return errors.number;
    if (text === "" || /^0x|[^\da-z]/i.test(text) || (/[bh]$/i.test(text) && base <= 17))
      return refuse("DECIMAL of a text that is more than digits");
    const digits = [...text.toLowerCase()].map((digit) => parseInt(digit, 36));
    if (digits.some((digit) => digit >= base)) return errors.number;
    const value = digits.reduce((total, digit) => total * base + digit, 0);
    return value < 2 ** 53 ? value : refuse("DECIMAL of more than 15 digits");
  }),
  ...Object.fromEntries(conversions),
};
