import { fileURLToPath } from "node:url";
import { isMainThread } from "node:worker_threads";
import { verifyCommand } from "./verify/command";
import { serveReviews } from "./verify/worker";
import { consoleOutput } from "./shared/output";

// Each further core starts the same command, to take workbooks off the list.
const start = fileURLToPath(new URL("start.mjs", import.meta.url));
if (isMainThread) process.exitCode = await verifyCommand(process.argv.slice(2), consoleOutput(), start);
else serveReviews();
