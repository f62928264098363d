import type { ExampleArgument } from "../functions/examples";
import { formatReference, parseSelected } from "./port/addresses";
import type { ArgumentEntry, FunctionEntry } from "./entries";

/**
 * The call that a filled form stands for, as Excel in every language takes it from a program: English names, commas, decimal points. One text for each
 * argument, as typed or picked; `onSheet` is where the call will be.
 */
export function composeCall(entry: FunctionEntry, texts: readonly string[], onSheet: string): string {
  const given = entry.arguments.map((argument, index) => composeArgument(argument, texts[index] ?? "", onSheet));
  const count = given.findLastIndex((text) => text !== "") + 1;
  return `=STILLAIR.${entry.id}(${given.slice(0, count).join(",")})`;
}

/** The first argument that the function needs and the form does not give. */
export const findMissing = (entry: FunctionEntry, texts: readonly string[]): ArgumentEntry | undefined =>
  entry.arguments.find(({ isOptional }, index) => !isOptional && (texts[index] ?? "").trim() === "");

function composeArgument({ choices, keepsBlanks }: ArgumentEntry, typed: string, onSheet: string): string {
  const text = typed.trim();
  if (text === "") return "";
  if (choices.some(({ word }) => word === text)) return quoteText(text);
  if (text.startsWith("=")) return text.slice(1);
  if (/^\{.*\}$/s.test(text)) return text;
  const reference = composeReference(text, onSheet);
  if (reference === undefined) return String(readNumber(text) ?? quoteText(text.replace(/^"(.*)"$/s, "$1")));
  return keepsBlanks ? `IF(${reference}="","",${reference})` : reference;
}

/**
 * A number as a person types it, with a comma or a point, or in percent; undefined for anything else, "1,250" included: it is 1250 to some and 1.25
 * to others, and as a text the function refuses it.
 */
export function readNumber(typed: string): number | undefined {
  if (/^[-+−]?[1-9]\d{0,2},\d{3}\s*%?$/.test(typed.trim())) return undefined;
  const [, digits, percent] = /^([-+−]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:e[-+]?\d+)?)\s*(%?)$/i.exec(typed.trim()) ?? [];
  if (digits === undefined) return undefined;
  const value = Number(digits.replace(",", ".").replace("−", "-"));
  // Not a division: 0.7 % would give more digits than were typed.
  return percent === "%" ? Number(`${value}e-2`) : value;
}

const place = String.raw`\$?[A-Z]{1,3}\$?\d{1,7}`;
const area = String.raw`(?:${place}(?::${place}|#)?|\$?[A-Z]{1,3}:\$?[A-Z]{1,3})`;
const onAnySheet = String.raw`(?:(?:'(?:[^']|'')+'|[\p{L}\p{N}_.]+)!)?`;
const plainReference = new RegExp(`^${onAnySheet}${area}$`, "iu");
const tableColumn = /^[\p{L}_][\p{L}\p{N}_.]*\[.+\]$/u;

/** Cells, whole columns, what has spilled, or columns of a table; undefined for anything else. */
function composeReference(text: string, onSheet: string): string | undefined {
  const selected = text.includes("$") ? undefined : parseSelected(text);
  if (selected) return formatReference(selected, onSheet);
  return plainReference.test(text) || tableColumn.test(text) ? text : undefined;
}

const quoteText = (text: string): string => `"${text.replaceAll('"', '""')}"`;

/** Writes a call as a person types it in an English Excel: ranges as {row;row}, an omitted argument as nothing. */
export function formulaText(id: string, values: readonly ExampleArgument[]): string {
  return `=STILLAIR.${id}(${values.map(argumentText).join(",")})`;
}

function argumentText(value: ExampleArgument): string {
  if (value === null) return "";
  if (typeof value === "object") return `{${value.map((row) => row.map(argumentText).join(",")).join(";")}}`;
  if (typeof value === "string") return quoteText(value);
  return typeof value === "boolean" ? String(value).toUpperCase() : String(value);
}
