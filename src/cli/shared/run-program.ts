import { debuglog } from "node:util";
import { shorten, WorkbookProblem } from "../../workbook/index";
import { BadArgument } from "./parse-options";
import { createConsoleOutput, type Output } from "./output";

/** Runs a command as a program: on the console, with its exit code. An uncaught error is also reported in one line. */
export async function runProgram(
  name: string,
  command: (given: readonly string[], output: Output) => number | Promise<number>,
): Promise<void> {
  const output = createConsoleOutput();
  process.on("uncaughtException", (problem) => process.exit(reportEnd(name, problem, output)));
  process.exitCode = await command(process.argv.slice(2), output);
}

/** The exit code of an internal error, distinct from that of a difference or a finding. */
export const faultCode = 3;

const log = debuglog("stillair");

/** Reports in one line what ended a command, and returns its exit code. */
export function reportEnd(command: string, problem: unknown, output: Output): 2 | typeof faultCode {
  if (problem instanceof BadArgument || problem instanceof WorkbookProblem) {
    output.complain(`${command}: ${problem.message}`);
    return 2;
  }
  output.complain(`${command}: ${describeFault(problem)}`);
  return faultCode;
}

/** An internal error in one line. NODE_DEBUG=stillair shows developers where it happened. */
export function describeFault(problem: unknown): string {
  log("%s", problem instanceof Error ? problem.stack : String(problem));
  return `internal error, please report it: ${shorten(String(problem))}`;
}
