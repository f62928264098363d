import { availableParallelism } from "node:os";
import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";

/** Tests that look at the add-in as it is built; the others need no build. */
const ofBuild = [
  "tests/build/bundle.test.ts",
  "tests/browser/help-pages.test.ts",
  "tests/browser/pane-tools.test.ts",
  "tests/browser/pane.test.ts",
  "tests/browser/office-hosts.test.ts",
  "tests/browser/reader.test.ts",
  "tests/browser/reader-workbooks.test.ts",
  "tests/browser/reader-offline.test.ts",
  "tests/browser/reader-stops.test.ts",
  "tests/browser/reader-firefox.test.ts",
];

/** Tests that load modules anew, which others share. */
const apart = ["tests/functions/result-card.test.ts"];

/** Those of the last project that take longest, so that no core waits for one that was begun last. */
const longest = [
  "tests/browser/reader-workbooks.test.ts",
  "tests/browser/reader.test.ts",
  "tests/fuzz/corpus.test.ts",
  "tests/workbook/verify/tampered-decisions.test.ts",
  "tests/workbook/verify/tamperings.test.ts",
  "tests/workbook/verify/tampered-readings.test.ts",
  "tests/workbook/verify/tampered-verdicts.test.ts",
  "tests/samples/every-workbook.test.ts",
  "tests/samples/without-add-in.test.ts",
  "tests/samples/printed.test.ts",
  "tests/workbook/issue-copy/samples.test.ts",
  "tests/cli/start.test.ts",
  "tests/samples/filled/final-test.test.ts",
];

/** In the order in which they run. */
const projects = ["build", "apart", "others"];

/**
 * One project after the other, since a worker that goes from one to the next begins anew and reads all modules again; in each the longest files first, the
 * rest by what the run before took, or by size.
 */
class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const turn = ({ project }: TestSpecification): number => projects.indexOf(project.name);
    const place = ({ moduleId }: TestSpecification): number => {
      const index = longest.findIndex((name) => moduleId.endsWith(name));
      return index === -1 ? longest.length : index;
    };
    return (await super.sort(files)).sort((one, other) => turn(one) - turn(other) || place(one) - place(other));
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
    // One and a half for each core: a third of the time tests wait for a browser, for LibreOffice or for another process.
    maxWorkers: Math.ceil(1.5 * availableParallelism()),
    projects: [
      { extends: true, test: { name: "build", include: ofBuild, globalSetup: "tests/build/shared-build.ts" } },
      { extends: true, test: { name: "apart", include: apart, isolate: true } },
      {
        extends: true,
        test: {
          name: "others",
          include: ["tests/**/*.test.ts"],
          // What lies in tests/reference needs a folder that is no part of the project: "npm run test:reference".
          exclude: [...ofBuild, ...apart, "tests/reference/**"],
        },
      },
    ],
  },
});
