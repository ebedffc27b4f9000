#!/usr/bin/env bash
# Installs the Debian packages that are missing. With --check also those that only the tests need.
# Idempotent; asks apt only when something is missing.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
list=$(cat "$here/packages.txt")
if [ "${1:-}" = "--check" ]; then
  list="$list $(cat "$here/packages-check.txt")"
  # The web tools run on node 18 or newer; Debian 12 has it. A newer one that is already there is left alone.
  major=$(node --version 2>/dev/null | sed 's/^v\([0-9]*\).*/\1/' || true)
  [ "${major:-0}" -ge 18 ] || list="$list nodejs"
  command -v npm >/dev/null 2>&1 || list="$list npm"
fi
missing=""
for package in $list; do
  [ "$(dpkg-query -W -f '${db:Status-Abbrev}' "$package" 2>/dev/null || true)" = "ii " ] || missing="$missing $package"
done
if [ -z "$missing" ]; then
  exit 0
fi
echo "Installing:$missing"
if [ "$(id -u)" = 0 ]; then as=""; elif command -v sudo >/dev/null 2>&1; then as="sudo"; else
  echo "These packages are missing and need an administrator: apt-get install$missing" >&2
  exit 1
fi
$as env DEBIAN_FRONTEND=noninteractive apt-get update -qq
# shellcheck disable=SC2086
$as env DEBIAN_FRONTEND=noninteractive apt-get -o DPkg::Lock::Timeout=300 install -y -qq --no-remove --no-install-recommends $missing </dev/null >/dev/null
echo "Packages are in place."
