import { fileURLToPath } from "node:url";
import { isMainThread } from "node:worker_threads";
import { runProgram } from "./shared/run-program";
import { verifyCommand } from "./verify/command";
import { serveReviews } from "./verify/pool";

// Each further core runs the same command, taking workbooks off the list.
const start = fileURLToPath(new URL("start.mjs", import.meta.url));
if (isMainThread) await runProgram("verify", (given, output) => verifyCommand(given, output, start));
else serveReviews();
