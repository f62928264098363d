#!/usr/bin/env bash
# All checks and all tests. Ends with the line "N passed, N failed"; a check that fails counts as a failed test.
set -uo pipefail
cd "$(dirname "$0")/.."

# System programs that tests call, with the Debian package of each.
declare -A packages=([chromium]=chromium [soffice]=libreoffice-calc [xmllint]=libxml2-utils [unzip]=unzip [pdftoppm]=poppler-utils)
missing=()
for program in "${!packages[@]}"; do
  command -v "$program" >/dev/null || missing+=("${packages[$program]}")
done
if [ ${#missing[@]} -gt 0 ]; then
  if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
    echo "installing for the tests: ${missing[*]}"
    apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" fonts-dejavu-core fonts-liberation >/dev/null || {
      echo "could not install: ${missing[*]}"
      echo "0 passed, 1 failed"
      exit 1
    }
  else
    echo "The tests need programs that are not installed. On Debian or Ubuntu:"
    echo "  sudo apt-get install ${missing[*]}"
    echo "0 passed, 1 failed"
    exit 1
  fi
fi

failed_checks=0
npm run --silent check || failed_checks=1

report=$(mktemp)
trap 'rm -f "$report"' EXIT
npx vitest run --config tests/vitest.config.ts --reporter=default --reporter=json --outputFile.json="$report" "$@"
outcome=$?

node -e '
  const { readFileSync } = require("node:fs");
  const failedChecks = Number(process.argv[2]);
  let report = { numPassedTests: 0, numFailedTests: 1 };
  try { report = JSON.parse(readFileSync(process.argv[1], "utf8")); } catch { console.log("the test run left no report"); }
  const skipped = (report.numPendingTests ?? 0) + (report.numTodoTests ?? 0);
  if (skipped > 0) console.log(`${skipped} skipped, which counts as failed: nothing is skipped here`);
  const suites = (report.testResults ?? []).filter(({ status, assertionResults }) => status === "failed" && assertionResults.length === 0).length;
  const failed = report.numFailedTests + skipped + suites + failedChecks;
  if (failedChecks > 0) console.log("npm run check failed, see above");
  console.log(`${report.numPassedTests} passed, ${failed} failed`);
  process.exitCode = failed > 0 || report.numPassedTests === 0 || Number(process.argv[3]) !== 0 ? 1 : 0;
' "$report" "$failed_checks" "$outcome"
