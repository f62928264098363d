import { parseArgs } from "node:util";
import { runMetadataCommand } from "./metadata/command";
import { runDevelopersCommand } from "./metadata/developers";
import { runTakersCommand } from "./metadata/label-takers";
import { runClausesFromMemoryCommand } from "./metadata/clauses-from-memory";
import { runThirdPartyCommand } from "./metadata/third-party";

/**
 * `npm run metadata` writes src/functions/functions.json, settings/takers.json beside it, and the tables of the help pages, DEVELOPERS.md and
 * THIRD-PARTY.md; with --check it only reports whether they are current, with --folder it only reads that folder's functions.json.
 */
const { values } = parseArgs({ options: { check: { type: "boolean", default: false }, folder: { type: "string" } } });
const folder = values.folder ?? "src/functions";
const outcomes = [await runMetadataCommand(folder, values.check)];
if (values.folder === undefined && outcomes[0]?.succeeded === true) {
  outcomes.push(runTakersCommand(folder, values.check));
  // It reads what the line above has written.
  const { runFunctionsPageCommand, runSettingsPageCommand } = await import("./metadata/help-pages");
  outcomes.push(
    runSettingsPageCommand("src/taskpane/help/settings.md", values.check),
    runFunctionsPageCommand(folder, "src/taskpane/help/functions.md", values.check),
    runDevelopersCommand(folder, "DEVELOPERS.md", values.check),
    runClausesFromMemoryCommand("DEVELOPERS.md", values.check),
    runThirdPartyCommand("THIRD-PARTY.md", "package-lock.json", values.check),
  );
}
for (const { succeeded, lines } of outcomes) {
  for (const line of lines) (succeeded ? console.log : console.error)(`metadata: ${line}`);
  if (!succeeded) process.exitCode = 1;
}
