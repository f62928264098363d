import { build } from "esbuild";
import { defineConfig } from "vitest/config";
import { BaseSequencer } from "vitest/node";
import type { TestSpecification } from "vitest/node";

const root = new URL("..", import.meta.url).pathname;

// A mutant's run is short; reading two hundred modules one by one would take most of it. So the two layers are joined beforehand.
const joined = `${root}reports/joined-${process.env.STRYKER_MUTATOR_WORKER ?? 0}`;
await build({
  entryPoints: { core: `${root}src/core/index.ts`, functions: `${root}src/functions/index.ts` },
  outdir: joined,
  outExtension: { ".js": ".mjs" },
  bundle: true,
  splitting: true,
  format: "esm",
  target: "es2022",
});

/** Near tests first: a mutant is done with its first failing test. */
class NearTestsFirst extends BaseSequencer {
  override sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const order = [/tests\/core\/(?!uncertainty)/, /tests\/core/, /tests\/functions/, /tests\/authorities/];
    const place = ({ moduleId }: TestSpecification) => order.findIndex((folder) => folder.test(moduleId));
    return Promise.resolve([...files].sort((a, b) => place(a) - place(b) || a.moduleId.localeCompare(b.moduleId)));
  }
}

// The quick tests that exercise src/core. Modules are kept from file to file, for speed too.
export default defineConfig({
  resolve: {
    alias: [
      { find: /^.*\/src\/core(\/index)?$/, replacement: `${joined}/core.mjs` },
      { find: /^.*\/src\/functions(\/index)?$/, replacement: `${joined}/functions.mjs` },
    ],
  },
  test: {
    root,
    include: ["tests/{core,functions,authorities}/**/*.test.ts"],
    exclude: ["tests/{authorities,functions}/random-*.test.ts", "tests/authorities/uncertainty-monte-carlo.test.ts"],
    setupFiles: ["tests/mutation.setup.ts"],
    isolate: false,
    testTimeout: 60_000,
    sequence: { sequencer: NearTestsFirst },
    server: { deps: { external: [/\/joined-\d+\//] } },
  },
});
