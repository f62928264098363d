#!/usr/bin/env bash
# All checks and all tests. Ends with the line "N passed, N failed"; a check that fails counts as a failed test.
set -uo pipefail
cd "$(dirname "$0")/.."

# System programs that tests call, with the Debian package of each.
declare -A packages=([chromium]=chromium [firefox-esr]=firefox-esr [soffice]=libreoffice-calc)

# Checks against whole schemas run where the schemas are; they are not the project's to pass on.
export SCHEMA_TOOLS=${SCHEMA_TOOLS:-../shared/tools}
note=""
if [ -x "$SCHEMA_TOOLS/check-workbook" ] && [ -x "$SCHEMA_TOOLS/check-manifest" ]; then
  packages+=([xmllint]=libxml2-utils [unzip]=unzip)
else
  note="Not run: manifest and workbooks against the whole schemas (SCHEMA_TOOLS names no folder with check-manifest and check-workbook)."
fi

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
exec bash tests/run-vitest.sh "$failed_checks" "$note" --config tests/vitest.config.ts "$@"
