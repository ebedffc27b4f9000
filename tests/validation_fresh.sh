#!/usr/bin/env bash
# The committed validation report must be the one that this test run gives.
set -euo pipefail
root=$1 rows=$2
fresh=$(mktemp)
trap 'rm -f "$fresh"' EXIT
"$root/tools/validation_report.sh" "$rows" "$root/atlas/sources.csv" > "$fresh"
if ! diff -u "$root/docs/reference/validation.md" "$fresh"; then
  echo "docs/reference/validation.md is not what the tests gave. Renew it: tools/validation_report.sh build/check/validation atlas/sources.csv > docs/reference/validation.md"
  exit 1
fi
