import { parseArgs } from "node:util";
import { metadataCommand } from "./metadata/command";
import { developersCommand } from "./metadata/developers";
import { memoryCommand } from "./metadata/memory";
import { readmeCommand } from "./metadata/readme";
import { thirdPartyCommand } from "./metadata/third-party";

/**
 * `npm run metadata` writes src/functions/functions.json and the tables of README.md, DEVELOPERS.md and THIRD-PARTY.md; `npm run metadata -- --check` only says whether they are
 * current. With --folder only that folder's functions.json is looked at.
 */
const { values } = parseArgs({ options: { check: { type: "boolean", default: false }, folder: { type: "string" } } });
const folder = values.folder ?? "src/functions";
const outcomes = [await metadataCommand(folder, values.check)];
if (values.folder === undefined && outcomes[0]?.succeeded === true) {
  outcomes.push(
    readmeCommand(folder, "README.md", values.check),
    developersCommand(folder, "DEVELOPERS.md", values.check),
    memoryCommand("DEVELOPERS.md", values.check),
    thirdPartyCommand("THIRD-PARTY.md", "package-lock.json", values.check),
  );
}
for (const { succeeded, lines } of outcomes) {
  for (const line of lines) (succeeded ? console.log : console.error)(`metadata: ${line}`);
  if (!succeeded) process.exitCode = 1;
}
