import { rmSync } from "node:fs";
import type { TestProject } from "vitest/node";
import { buildAddin, temporaryFolder } from "./build-addin";

declare module "vitest" {
  interface ProvidedContext {
    /** The folder of the add-in as `npm run build` makes it. */
    dist: string;
  }
}

/** Builds the add-in once for all tests that only look at it. */
export default async function setup(project: TestProject): Promise<() => void> {
  const dist = temporaryFolder();
  const { errors } = await buildAddin({ output: dist });
  if (errors.length > 0) throw new Error(errors.join("\n"));
  project.provide("dist", dist);
  return () => rmSync(dist, { recursive: true });
}
