#!/usr/bin/env bash
# Runs vitest, names the ten slowest files and ends with the line "N passed, N failed". Arguments: the number of checks that failed
# before, a sentence to print before the last line (or ""), then vitest's own.
set -uo pipefail
failed_checks=$1 note=$2
shift 2

report=$(mktemp)
trap 'rm -f "$report"' EXIT
npx vitest run --reporter=default --reporter=json --outputFile.json="$report" "$@"
outcome=$?

[ -z "$note" ] || echo "$note"
node -e '
  const { readFileSync } = require("node:fs");
  const { relative } = require("node:path");
  const failedChecks = Number(process.argv[2]);
  let report = { numPassedTests: 0, numFailedTests: 1 };
  try { report = JSON.parse(readFileSync(process.argv[1], "utf8")); } catch { console.log("the test run left no report"); }
  const seconds = ({ startTime, endTime }) => (endTime - startTime) / 1000;
  const slowest = [...(report.testResults ?? [])].sort((one, other) => seconds(other) - seconds(one)).slice(0, 10);
  if (slowest.length > 1) console.log("The slowest files:");
  for (const file of slowest.length > 1 ? slowest : [])
    console.log(`${seconds(file).toFixed(1).padStart(8)} s  ${relative(process.cwd(), file.name)}`);
  const skipped = (report.numPendingTests ?? 0) + (report.numTodoTests ?? 0);
  if (skipped > 0) console.log(`${skipped} skipped, which counts as failed: nothing is skipped here`);
  const suites = (report.testResults ?? []).filter(({ status, assertionResults }) => status === "failed" && assertionResults.length === 0).length;
  const failed = report.numFailedTests + skipped + suites + failedChecks;
  if (failedChecks > 0) console.log("npm run check failed, see above");
  console.log(`${report.numPassedTests} passed, ${failed} failed`);
  process.exitCode = failed > 0 || report.numPassedTests === 0 || Number(process.argv[3]) !== 0 ? 1 : 0;
' "$report" "$failed_checks" "$outcome"
