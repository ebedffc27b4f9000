#!/usr/bin/env bash
# The committed page of the command line must be that of the program.
set -euo pipefail
"$1/tools/command_line_page.sh" "$2" | diff -u "$1/docs/reference/command-line.md" -
