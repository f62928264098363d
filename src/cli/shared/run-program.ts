import { consoleOutput, type Output } from "./output";
import { endedBy } from "./problem";

/** Runs a command as a program of its own: on the console, with its exit code. What nothing caught is said in one line, too. */
export async function runProgram(
  name: string,
  command: (given: readonly string[], output: Output) => number | Promise<number>,
): Promise<void> {
  const output = consoleOutput();
  process.on("uncaughtException", (problem) => process.exit(endedBy(name, problem, output)));
  process.exitCode = await command(process.argv.slice(2), output);
}
