import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { generateMetadata } from "./generate";

export interface Outcome {
  readonly succeeded: boolean;
  readonly lines: readonly string[];
}

/** Writes functions.json beside the sources; with `check` it writes nothing and fails where the file is not what they say. */
export async function metadataCommand(folder: string, check: boolean): Promise<Outcome> {
  const target = join(folder, "functions.json");
  const generated = await generateMetadata(folder);
  if (!("text" in generated)) return { succeeded: false, lines: generated.problems };
  const current = existsSync(target) ? readFileSync(target, "utf8") : undefined;
  const stale = current !== generated.text;
  if (check && stale)
    return {
      succeeded: false,
      lines: [`${target} is not current; run "npm run metadata" and review the difference`],
    };
  if (stale) writeFileSync(target, generated.text);
  const count = (JSON.parse(generated.text) as { functions: unknown[] }).functions.length;
  return { succeeded: true, lines: [`${target} lists ${count} functions${stale ? " (rewritten)" : ""}`] };
}
