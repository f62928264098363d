import { parseArgs } from "node:util";
import { metadataCommand } from "./metadata/command";

/** `npm run metadata` writes src/functions/functions.json; `npm run metadata -- --check` only says whether it is current. */
const { values } = parseArgs({
  options: { check: { type: "boolean", default: false }, folder: { type: "string", default: "src/functions" } },
});
const { succeeded, lines } = await metadataCommand(values.folder, values.check);
for (const line of lines) (succeeded ? console.log : console.error)(`metadata: ${line}`);
process.exitCode = succeeded ? 0 : 1;
