import { parseArgs } from "node:util";
import * as z from "zod";
import { sentence, shorten } from "../../workbook/index";

/** An error in the command line; the message is one line, and the command ends with exit code 2. */
export class BadArgument extends Error {
  constructor(message: string) {
    super(message.replace(/\s*[\r\n]+\s*/g, " "));
    this.name = "BadArgument";
  }
}

/** An option that is given or not. */
export const flag = z.boolean().default(false);

/** The name of a file to write. */
export const fileName = z.string().min(1, "needs a file name");

/** A value read from what was typed; `read` returns undefined if the text is not one. */
export function typed<Value>(needed: string, read: (text: string) => Value | undefined) {
  return z.string().transform((text, context): Value => {
    const value = read(text);
    if (value !== undefined) return value;
    context.addIssue({ code: "custom", message: sentence`needs ${needed}, not "${text}"` });
    return z.NEVER;
  });
}

/** A number within limits, both included. */
export function typedNumber(lowest: number, highest: number, kind: "whole" | "any" = "whole") {
  const needed = `a ${kind === "whole" ? "whole " : ""}number from ${lowest} to ${highest}`;
  return typed(needed, (text) => {
    const value = Number(text);
    const isOfKind = text.trim() !== "" && (kind === "any" || Number.isInteger(value));
    return isOfKind && value >= lowest && value <= highest ? value : undefined;
  });
}

/** What a command is given without an option's name. */
export const oneWorkbook = z.tuple([z.string()], "name one workbook (see --help)");
export const noWorkbook = "name a workbook or a folder (see --help)";
export const workbooksOrFolders = z.array(z.string()).min(1, noWorkbook);

/** The options of a command by their names in camel case, and `positionals`, what is given without a name. */
type Schema = z.ZodObject<Record<string, z.ZodType> & { positionals: z.ZodType }>;

/** What was asked of a command: its help, or its options. */
type Asked<Of extends Schema> = { readonly help: true } | ({ readonly help: false } & Readonly<z.output<Of>>);

/** Reads a command line by the schema of its options; throws BadArgument, one sentence, if it does not fit. */
export function parseOptions<Of extends Schema>(given: readonly string[], schema: Of): Asked<Of> {
  const { help, ...read } = split(given, schema);
  if (help === true) return { help };
  const parsed = schema.safeParse(read);
  if (parsed.success) return { help: false, ...parsed.data };
  const [{ message = "", path: [name] = [] } = {}] = parsed.error.issues;
  throw new BadArgument(
    typeof name === "string" && name !== "positionals" ? `--${inKebabCase(name)} ${message}` : message,
  );
}

/** The command line's parts by name, unchecked. */
function split(given: readonly string[], { shape }: Schema): Record<string, unknown> {
  const names = Object.keys(shape).filter((name) => name !== "positionals");
  const options = Object.fromEntries(names.map((name) => [inKebabCase(name), kindOf(shape[name]!)]));
  try {
    const { values, positionals } = parseArgs({
      args: [...given],
      allowPositionals: true,
      options: { ...options, help: { type: "boolean", short: "h" } },
    });
    const byName = names.map((name) => [name, (values as Record<string, unknown>)[inKebabCase(name)]] as const);
    return { help: values.help, positionals, ...Object.fromEntries(byName.filter(([, value]) => value !== undefined)) };
  } catch (problem) {
    const [words = ""] = (problem instanceof Error ? problem.message : String(problem)).split(/\.\s|\n/);
    throw new BadArgument(`${shorten(words.replace(/\.$/, ""))} (see --help)`);
  }
}

/** How node:util reads an option: whether a value follows it, and whether it may be given several times. */
function kindOf(schema: z.ZodType): { type: "boolean" } | { type: "string"; multiple: boolean } {
  const inner = schema instanceof z.ZodDefault || schema instanceof z.ZodOptional ? schema.unwrap() : schema;
  if (inner instanceof z.ZodBoolean) return { type: "boolean" };
  return { type: "string", multiple: inner instanceof z.ZodArray };
}

const inKebabCase = (name: string): string => name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
