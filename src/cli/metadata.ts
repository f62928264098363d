import { parseArgs } from "node:util";
import { metadataCommand } from "./metadata/command";
import { developersCommand } from "./metadata/developers";
import { helpPageCommand } from "./metadata/help-page";
import { memoryCommand } from "./metadata/memory";
import { thirdPartyCommand } from "./metadata/third-party";

/**
 * `npm run metadata` writes src/functions/functions.json and the tables of the page of functions, DEVELOPERS.md and THIRD-PARTY.md;
 * with --check it only says whether they are current, with --folder it only reads that folder's functions.json.
 */
const { values } = parseArgs({ options: { check: { type: "boolean", default: false }, folder: { type: "string" } } });
const folder = values.folder ?? "src/functions";
const outcomes = [await metadataCommand(folder, values.check)];
if (values.folder === undefined && outcomes[0]?.succeeded === true) {
  outcomes.push(
    helpPageCommand(folder, "src/taskpane/help/functions.md", values.check),
    developersCommand(folder, "DEVELOPERS.md", values.check),
    memoryCommand("DEVELOPERS.md", values.check),
    thirdPartyCommand("THIRD-PARTY.md", "package-lock.json", values.check),
  );
}
for (const { succeeded, lines } of outcomes) {
  for (const line of lines) (succeeded ? console.log : console.error)(`metadata: ${line}`);
  if (!succeeded) process.exitCode = 1;
}
