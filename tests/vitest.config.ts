import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";

/** Tests that look at the add-in as it is built; the others need no build. */
const ofBuild = [
  "tests/build/bundle.test.ts",
  "tests/browser/help-pages.test.ts",
  "tests/browser/pane-tools.test.ts",
  "tests/browser/pane.test.ts",
  "tests/browser/reader.test.ts",
];

/** Tests that load modules anew, which others share. */
const apart = ["tests/functions/result-card.test.ts"];

/** What `npm run test:quick` runs: the method, its functions, the published figures, the evaluator. */
const quick = ["core", "functions", "authorities", "workbook/formula"].map((folder) => `tests/${folder}/**/*.test.ts`);

/** The longest first, so that no core waits for one that was begun last; the rest by what the run before took, or by size. */
const longest = [
  "tests/fuzz/corpus.test.ts",
  "tests/workbook/verify/tampered-decisions.test.ts",
  "tests/workbook/verify/tamperings.test.ts",
  "tests/workbook/verify/tampered-readings.test.ts",
  "tests/workbook/verify/tampered-verdicts.test.ts",
  "tests/samples/every-workbook.test.ts",
  "tests/workbook/issue-copy/samples.test.ts",
];

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const place = ({ moduleId }: TestSpecification): number => {
      const index = longest.findIndex((name) => moduleId.endsWith(name));
      return index === -1 ? longest.length : index;
    };
    return (await super.sort(files)).sort((one, other) => place(one) - place(other));
  }
}

export default defineConfig({
  test: {
    root: new URL("..", import.meta.url).pathname,
    // Against a test without end. What starts LibreOffice, a browser or a command, or reviews a whole workbook, says so and has more.
    testTimeout: 30_000,
    hookTimeout: 30_000,
    sequence: { sequencer: LongestFirst },
    // No test changes what another one imports, and reading some four hundred modules anew for each file takes longer than most tests.
    isolate: false,
    // Vitest would leave one core idle, which is half of a small machine.
    maxWorkers: "100%",
    projects: [
      { extends: true, test: { name: "build", include: ofBuild, globalSetup: "tests/build/shared-build.ts" } },
      { extends: true, test: { name: "apart", include: apart, isolate: true } },
      { extends: true, test: { name: "quick", include: quick, exclude: apart } },
      {
        extends: true,
        test: {
          name: "whole",
          include: ["tests/**/*.test.ts"],
          // What lies in tests/reference needs a folder that is no part of the project: "npm run test:reference".
          exclude: [...ofBuild, ...apart, ...quick, "tests/reference/**"],
        },
      },
    ],
  },
});
