import { debuglog } from "node:util";
import { shortened, WorkbookProblem } from "../../workbook/index";
import { BadArgument } from "./bad-argument";
import type { Output } from "./output";

/** The exit code of a fault of the program itself: never that of a difference or a finding. */
export const faultCode = 3;

const log = debuglog("stillair");

/** Says in one line what ended a command, and gives its exit code. */
export function endedBy(command: string, problem: unknown, output: Output): 2 | typeof faultCode {
  if (problem instanceof BadArgument || problem instanceof WorkbookProblem) {
    output.complain(`${command}: ${problem.message}`);
    return 2;
  }
  output.complain(`${command}: ${faultText(problem)}`);
  return faultCode;
}

/** A fault of the program in one line. Developers see where it happened with NODE_DEBUG=stillair. */
export function faultText(problem: unknown): string {
  log("%s", problem instanceof Error ? problem.stack : String(problem));
  return `this program broke off, by a fault of its own: ${shortened(String(problem))}`;
}
