import { parseArgs } from "node:util";
import { runMetadataCommand } from "./metadata/command";
import { runDevelopersCommand } from "./metadata/developers";
import { runHelpPageCommand } from "./metadata/help-page";
import { runMemoryCommand } from "./metadata/memory";
import { runThirdPartyCommand } from "./metadata/third-party";

/**
 * `npm run metadata` writes src/functions/functions.json and the tables of the page of functions, DEVELOPERS.md and THIRD-PARTY.md;
 * with --check it only reports whether they are current, with --folder it only reads that folder's functions.json.
 */
const { values } = parseArgs({ options: { check: { type: "boolean", default: false }, folder: { type: "string" } } });
const folder = values.folder ?? "src/functions";
const outcomes = [await runMetadataCommand(folder, values.check)];
if (values.folder === undefined && outcomes[0]?.succeeded === true) {
  outcomes.push(
    runHelpPageCommand(folder, "src/taskpane/help/functions.md", values.check),
    runDevelopersCommand(folder, "DEVELOPERS.md", values.check),
    runMemoryCommand("DEVELOPERS.md", values.check),
    runThirdPartyCommand("THIRD-PARTY.md", "package-lock.json", values.check),
  );
}
for (const { succeeded, lines } of outcomes) {
  for (const line of lines) (succeeded ? console.log : console.error)(`metadata: ${line}`);
  if (!succeeded) process.exitCode = 1;
}
