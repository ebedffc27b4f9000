#!/usr/bin/env bash
# The committed TypeScript types must be those of the program.
set -euo pipefail
"$1" typescript | diff -u "$2" -
