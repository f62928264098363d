/** Where lines go: results to stdout, problems to stderr. */
export interface Output {
  print(text: string): void;
  complain(text: string): void;
}

/** The console. A reader that stops early (`| head`) is no fault. */
export function consoleOutput(): Output {
  process.stdout.on("error", (problem: NodeJS.ErrnoException) => {
    if (problem.code !== "EPIPE") throw problem;
    process.exit(process.exitCode);
  });
  return { print: (text) => console.log(text), complain: (text) => console.error(text) };
}
