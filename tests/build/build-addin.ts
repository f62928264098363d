import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { onTestFinished } from "vitest";
import webpack from "webpack";
import { addInConfiguration, readerConfiguration } from "../../webpack.config.js";

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
  return run(addInConfiguration(env) as webpack.Configuration, env.output);
}

/** Builds the review page into a folder that may hold the add-in already. */
export function buildReader(output: string): Promise<Build> {
  return run(readerConfiguration({ output }) as webpack.Configuration, output);
}

async function run(configuration: webpack.Configuration, folder: string): Promise<Build> {
  const compiler = webpack(configuration);
  const stats = await new Promise<webpack.Stats>((resolve, reject) =>
    compiler.run((error, result) => (result ? resolve(result) : reject(error ?? new Error("no result")))),
  );
  await new Promise((resolve) => compiler.close(resolve));
  return { folder, errors: stats.compilation.errors.map(({ message }) => message) };
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
