import { parseArgs, type ParseArgsConfig } from "node:util";
import { shorten } from "../../workbook/index";

/** An error in the command line; the message is one line, and the command ends with exit code 2. */
export class BadArgument extends Error {
  constructor(message: string) {
    super(message.replace(/\s*[\r\n]+\s*/g, " "));
    this.name = "BadArgument";
  }
}

type Options = NonNullable<ParseArgsConfig["options"]>;

/** Options and positional arguments of a command line; throws BadArgument with one sentence if an option is unknown or lacks its value. */
export function parseOptions<const Of extends Options>(given: readonly string[], options: Of) {
  try {
    return parseArgs({
      args: [...given],
      allowPositionals: true as const,
      options: { ...options, help: { type: "boolean" as const, short: "h" } },
    });
  } catch (problem) {
    const [words = ""] = (problem instanceof Error ? problem.message : String(problem)).split(/\.\s|\n/);
    throw new BadArgument(`${shorten(words.replace(/\.$/, ""))} (see --help)`);
  }
}
