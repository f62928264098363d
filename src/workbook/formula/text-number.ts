import { refuse } from "./refusal";

const plainNumber = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

/**
 * The number that a text stands for where Excel coerces it, or undefined for text that is no number (#VALUE! in Excel).
 *
 * Only plain numbers with a decimal point are read. Text that Excel might read by the locale of the machine (dates, times,
 * per cent, currency, thousands separators, decimal commas, fractions) is refused by name.
 */
export function numberOfText(text: string): number | undefined {
  const trimmed = text.replace(/^ +| +$/g, "");
  if (plainNumber.test(trimmed)) {
    const value = Number(trimmed);
    return Number.isFinite(value) ? value : undefined;
  }
  if (!/\d/.test(trimmed)) return undefined;
  if (mayBeReadByLocale(trimmed)) refuse(`the text "${shortened(text)}" is read as a number or not according to the locale`);
  return undefined;
}

/** Text with a digit whose letters and signs leave no room for a date, a time, a currency or a separated number. */
function mayBeReadByLocale(text: string): boolean {
  const words = text.match(/\p{L}+/gu) ?? [];
  if (words.length === 0) return true;
  if (words.length > 2) return false;
  // A letter or two between digits ("3x4", "12ab") is no month, no a.m. or p.m. and no currency; one word may be a month.
  return words.some((word) => word.length >= 3 || /^(am?|pm?|e|kr|zł|fr|r|rs)$/i.test(word));
}

function shortened(text: string): string {
  return text.length > 24 ? text.slice(0, 24) + "…" : text;
}
