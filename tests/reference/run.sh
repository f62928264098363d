#!/usr/bin/env bash
# Tries the evaluator, the writer and the review on real workbooks saved by Excel: npm run test:reference -- FOLDER
set -uo pipefail
cd "$(dirname "$0")/../.."

folder=${1:-}
if [ -z "$folder" ]; then
  echo "test:reference: name the folder of workbooks saved by Excel: npm run test:reference -- FOLDER (tests/authorities/excel-workbooks/SOURCE.md says where they come from)" >&2
  exit 2
fi
if [ ! -d "$folder" ]; then
  echo "test:reference: there is no folder $folder" >&2
  exit 2
fi
REFERENCE_WORKBOOKS=$folder exec bash tests/run-vitest.sh 0 "" --config tests/reference/vitest.config.ts
