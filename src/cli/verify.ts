import { fileURLToPath } from "node:url";
import { isMainThread } from "node:worker_threads";
import { verifyCommand } from "./verify/command";
import { serveReviews } from "./verify/worker";
import { consoleOutput } from "./shared/output";

// The file starts itself once more on each further core, to take workbooks off the list.
if (isMainThread)
  process.exitCode = await verifyCommand(process.argv.slice(2), consoleOutput(), fileURLToPath(import.meta.url));
else serveReviews();
