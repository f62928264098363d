import { rmSync } from "node:fs";
import type { TestProject } from "vitest/node";
import { buildAddin, buildReader, temporaryFolder } from "./build-addin";

declare module "vitest" {
  interface ProvidedContext {
    /** The folder of the add-in and the review page as `npm run build` makes it. */
    dist: string;
  }
}

/** Builds the add-in and the review page once for all tests that only look at them. */
export default async function setup(project: TestProject): Promise<() => void> {
  const dist = temporaryFolder();
  const addIn = await buildAddin({ output: dist });
  const reader = await buildReader(dist);
  const errors = [...addIn.errors, ...reader.errors];
  if (errors.length > 0) throw new Error(errors.join("\n"));
  project.provide("dist", dist);
  return () => rmSync(dist, { recursive: true });
}
