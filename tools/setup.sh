#!/usr/bin/env bash
# Installs the Debian packages that are missing and says which. Asks apt only when something is missing.
#   tools/setup.sh           what building and running needs (tools/packages.txt)
#   tools/setup.sh --sundials  also SUNDIALS (tools/packages-sundials.txt), which one bench compares with
#   tools/setup.sh --check   also what the tests need (tools/packages-check.txt, node and npm)
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)

command -v dpkg-query >/dev/null || { echo "This set-up knows Debian only. Needed: $(tr '\n' ' ' < "$here/packages.txt")" >&2; exit 1; }
names() { sed 's/#.*//' "$@" | tr -s ' \t\n' ' '; }
wanted=$(names "$here/packages.txt")
[ "${1:-}" != --sundials ] || wanted+=" $(names "$here/packages-sundials.txt")"
if [ "${1:-}" = --check ]; then
  wanted+=" $(names "$here/packages-check.txt")"
  # The web tools run on node 18 or newer. One that is there stays; else Debian's own comes.
  major=$(node --version 2>/dev/null | sed -n 's/^v\([0-9]*\).*/\1/p' || true)
  [ "${major:-0}" -ge 18 ] || wanted+=" nodejs"
  npm --version >/dev/null 2>&1 || wanted+=" npm"
fi

missing=()
for package in $wanted; do
  # A package that was removed still answers, with another state than "ii ".
  [ "$(dpkg-query -W -f '${db:Status-Abbrev}' "$package" 2>/dev/null || true)" = "ii " ] || missing+=("$package")
done
if [ ${#missing[@]} = 0 ]; then
  echo "Set-up: all packages are there."
  exit 0
fi

install=(apt-get -o DPkg::Lock::Timeout=300 install -y --no-remove --no-install-recommends "${missing[@]}")
as=()
if [ "$(id -u)" != 0 ]; then
  if ! command -v sudo >/dev/null; then
    echo "Set-up: packages are missing, and installing them needs an administrator. Please run as root:" >&2
    echo "  apt-get update && ${install[*]}" >&2
    exit 1
  fi
  as=(sudo)
fi
echo "Set-up: installing ${#missing[@]} Debian packages and what they need: ${missing[*]}"
"${as[@]}" env DEBIAN_FRONTEND=noninteractive apt-get update -qq </dev/null
log=$(mktemp)
if "${as[@]}" env DEBIAN_FRONTEND=noninteractive "${install[@]}" -qq </dev/null >"$log" 2>&1; then
  rm -f "$log"
else
  tail -n 30 "$log" >&2
  echo "Set-up: apt did not finish; its whole output is in $log" >&2
  exit 1
fi
echo "Set-up: packages are in place (${SECONDS} s)."
