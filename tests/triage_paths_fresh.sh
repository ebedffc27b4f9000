#!/usr/bin/env bash
# The committed paths through a call must be those of the program, but for the section that people write.
set -euo pipefail
sed '/^## What was changed after reading/,$d' "$2" | diff -u - <("$1") | head -40
[ "${PIPESTATUS[1]}" -eq 0 ]
[ "$(grep -c '^\*\*[0-9]*\.\*\*' "$2")" -ge 200 ]
