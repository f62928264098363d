import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { onTestFinished } from "vitest";
import webpack from "webpack";
import { addInConfiguration } from "../../webpack.config.js";

export interface Build {
  readonly folder: string;
  readonly errors: readonly string[];
}

/** Builds the add-in into a folder of its own, as "npm run build" does after it has checked the metadata. */
export async function buildAddin(env: {
  functions?: string;
  address?: string;
  excel?: string;
  output: string;
}): Promise<Build> {
  const compiler = webpack(addInConfiguration(env) as webpack.Configuration);
  const stats = await new Promise<webpack.Stats>((resolve, reject) =>
    compiler.run((error, result) => (result ? resolve(result) : reject(error ?? new Error("no result")))),
  );
  await new Promise((resolve) => compiler.close(resolve));
  return { folder: env.output, errors: stats.compilation.errors.map(({ message }) => message) };
}

export function temporaryFolder(): string {
  return mkdtempSync(join(tmpdir(), "stillair-build-"));
}

/** A folder that is gone when the test is over. */
export function folderOfTest(): string {
  const folder = temporaryFolder();
  onTestFinished(() => rmSync(folder, { recursive: true }));
  return folder;
}
