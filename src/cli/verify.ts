import { fileURLToPath } from "node:url";
import { isMainThread } from "node:worker_threads";
import { verifyCommand } from "./verify/command";
import { serveReviews } from "./verify/worker";

// A reader that stops early (`| head`) is no fault.
process.stdout.on("error", (problem: NodeJS.ErrnoException) => {
  if (problem.code !== "EPIPE") throw problem;
  process.exit(process.exitCode);
});

const output = { print: (text: string) => console.log(text), complain: (text: string) => console.error(text) };
// The file starts itself once more on each further core, to take workbooks off the list.
if (isMainThread) process.exitCode = await verifyCommand(process.argv.slice(2), output, fileURLToPath(import.meta.url));
else serveReviews();
