import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { generateMetadata } from "./metadata/generate";

/** `npm run metadata` writes src/functions/functions.json; with `--check` it only says whether the file is current. */
async function main(): Promise<number> {
  const { values } = parseArgs({
    options: { check: { type: "boolean", default: false }, folder: { type: "string", default: "src/functions" } },
  });
  const target = join(values.folder, "functions.json");
  const generated = await generateMetadata(values.folder);
  if (!("text" in generated)) {
    for (const problem of generated.problems) console.error(`metadata: ${problem}`);
    return 1;
  }
  const current = existsSync(target) ? readFileSync(target, "utf8") : undefined;
  if (values.check && current !== generated.text) {
    console.error(`metadata: ${target} is not current; run "npm run metadata" and review the difference`);
    return 1;
  }
  if (current !== generated.text) writeFileSync(target, generated.text);
  const count = (JSON.parse(generated.text) as { functions: unknown[] }).functions.length;
  console.log(`metadata: ${target} lists ${count} functions${current === generated.text ? "" : " (rewritten)"}`);
  return 0;
}

process.exitCode = await main();
