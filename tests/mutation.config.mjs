// A mutation run over the method: each small change to src/core has to make a test fail. `npm run mutation -- -m FILE,FILE` for some files.

export default {
  mutate: ["src/core/**/*.ts"],
  testRunner: "vitest",
  plugins: ["@stryker-mutator/vitest-runner"],
  // Every test reaches core by its door, so that "related" would only cost time; perTest coverage tells which tests count.
  vitest: { configFile: "tests/mutation.vitest.config.ts", related: false },
  coverageAnalysis: "perTest",
  concurrency: 2,
  timeoutMS: 5000,
  timeoutFactor: 2,
  ignorePatterns: ["/dist", "/coverage", "/reports", "/sample-workbooks", "/src/taskpane", "/src/workbook", "/src/cli"],
  incremental: true,
  incrementalFile: "reports/mutation/incremental.json",
  tempDirName: "reports/mutation/sandbox",
  cleanTempDir: "always",
  reporters: ["clear-text", "html", "json"],
  clearTextReporter: { allowColor: false, reportTests: false, reportMutants: true, logTests: false, skipFull: true },
  htmlReporter: { fileName: "reports/mutation/report.html" },
  jsonReporter: { fileName: "reports/mutation/report.json" },
  thresholds: { high: 95, low: 90, break: 90 },
};
