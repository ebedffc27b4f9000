#!/usr/bin/env bash
# Runs the sh blocks of a tutorial in an empty folder with the built program in front of PATH. Each line of a text block
# must stand in what the sh block before it printed.
#   tutorial.sh BINARY TUTORIAL.md
set -euo pipefail
binary=$(realpath "$1") tutorial=$(realpath "$2")
dir=$(mktemp -d)
trap 'rm -rf "$dir"' EXIT
PATH="$(dirname "$binary"):$PATH"
export PATH XDG_DATA_HOME="$dir/records"
cd "$dir"
block="" kind="" n=0 shown=0
run_block() {
  n=$((n + 1))
  printf '%s' "$block" > block.sh
  if ! bash -euo pipefail block.sh > output.txt 2>&1; then
    echo "block $n failed:"; cat block.sh output.txt; exit 1
  fi
}
compare_block() {
  while IFS= read -r line; do
    [ -z "$line" ] && continue
    shown=$((shown + 1))
    grep -qF -- "$line" output.txt || { echo "block $n did not print: $line"; cat output.txt; exit 1; }
  done < <(printf '%s' "$block")
}
while IFS= read -r line; do
  case "$line" in
    '```sh') kind=sh block="" ;;
    '```text') kind=text block="" ;;
    '```')
      [ "$kind" = sh ] && run_block
      [ "$kind" = text ] && compare_block
      kind="" ;;
    *) [ -n "$kind" ] && block+="$line"$'\n' ;;
  esac
done < "$tutorial"
[ "$n" -gt 0 ] && [ "$shown" -gt 0 ] || { echo "the tutorial has nothing to run or nothing to compare"; exit 1; }
echo "$n blocks ran, $shown lines compared"
