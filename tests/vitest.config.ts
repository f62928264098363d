import { defineConfig } from "vitest/config";

/** Tests that look at the add-in as it is built; the others need no build. */
const ofBuild = ["tests/build/bundle.test.ts", "tests/browser/pane.test.ts"];

/** Tests that load modules anew, which others share. */
const apart = ["tests/functions/result-card.test.ts"];

export default defineConfig({
  test: {
    root: new URL("..", import.meta.url).pathname,
    testTimeout: 240_000,
    hookTimeout: 240_000,
    // No test changes what another one imports, and reading some four hundred modules anew for each file takes longer than most tests.
    isolate: false,
    // Vitest would leave one core idle, which is half of a small machine.
    maxWorkers: "100%",
    projects: [
      { extends: true, test: { name: "build", include: ofBuild, globalSetup: "tests/build/shared-build.ts" } },
      { extends: true, test: { name: "apart", include: apart, isolate: true } },
      {
        extends: true,
        test: {
          name: "sources",
          include: ["tests/**/*.test.ts"],
          // What lies in tests/reference needs a folder that is no part of the project: "npm run test:reference".
          exclude: [...ofBuild, ...apart, "tests/reference/**"],
        },
      },
    ],
  },
});
