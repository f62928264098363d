import { issueCopyCommand } from "./issue-copy/command";

// A reader that stops early (`| head`) is no fault.
process.stdout.on("error", (problem: NodeJS.ErrnoException) => {
  if (problem.code !== "EPIPE") throw problem;
  process.exit(process.exitCode);
});

const output = { print: (text: string) => console.log(text), complain: (text: string) => console.error(text) };
process.exitCode = issueCopyCommand(process.argv.slice(2), output);
