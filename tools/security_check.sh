#!/usr/bin/env bash
# The security checklist against the real program on scratch data, one line an item: docs/reference/security.md says what each means.
#   tools/security_check.sh PROGRAM           all items
#   tools/security_check.sh PROGRAM ITEM …    only those
set -euo pipefail
[ $# -ge 1 ] || { sed -n '2,4p' "$0" >&2; exit 2; }
exec node "$(dirname "$0")/security_check.mjs" "$@"
