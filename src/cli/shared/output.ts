import { withJsonEscapes, withVisibleMarks } from "./visible-marks";

/** Where lines go: results to stdout, problems to stderr. Whatever a line holds, a workbook's text too, it is shown as one line and steers no terminal. */
export interface Output {
  print(lines: string | readonly string[]): void;
  /** Prints a JSON document, or whole lines of one. */
  printJson(json: string): void;
  complain(line: string): void;
}

/** Takes a whole text, a line feed at its end. */
type Sink = (text: string) => void;

/** The one place that everything a command says goes through. */
export function outputTo(results: Sink, problems: Sink): Output {
  const lined = (lines: string | readonly string[]) =>
    (typeof lines === "string" ? [lines] : lines).map((line) => `${withVisibleMarks(line)}\n`).join("");
  return {
    print: (lines) => results(lined(lines)),
    printJson: (json) => results(`${withJsonEscapes(json)}\n`),
    complain: (line) => problems(lined(line)),
  };
}

/** The console. A reader that stops early (`| head`) is no fault. */
export function consoleOutput(): Output {
  process.stdout.on("error", (problem: NodeJS.ErrnoException) => {
    if (problem.code === "EPIPE") process.exit(process.exitCode);
    process.stderr.write(`the output cannot be written (${problem.code ?? problem.message})\n`);
    process.exit(2);
  });
  process.stderr.on("error", () => undefined);
  return outputTo(
    (text) => process.stdout.write(text),
    (text) => process.stderr.write(text),
  );
}
