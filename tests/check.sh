#!/usr/bin/env bash
# Types, lint, format, layers and unused code: two at a time, the longest first. Prints what fails, each under its name.
set -uo pipefail
cd "$(dirname "$0")/.."

check() {
  local said
  said=$(npm run --silent "$1" 2>&1) || { printf 'npm run %s failed:\n%s\n' "$1" "$said"; return 1; }
}
export -f check
printf '%s\n' lint unused types format rules | xargs -P 2 -I{} bash -c 'check {}'
