// Writes the vectors beside this file from a folder of workbooks: `npx tsx tests/authorities/excel-workbooks/distil.ts FOLDER`.
import { existsSync, writeFileSync } from "node:fs";
import { distilled } from "./distilled";

const [folder = ""] = process.argv.slice(2);
if (!existsSync(folder)) {
  process.stderr.write(`distil: there is no folder "${folder}" of workbooks saved by Excel\n`);
  process.exit(2);
}
for (const [file, text] of distilled(folder)) writeFileSync(new URL(file, import.meta.url), text);
