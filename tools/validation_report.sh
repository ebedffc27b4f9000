#!/usr/bin/env bash
# The rows that the reference tests left behind, as docs/reference/validation.md.
#   validation_report.sh FOLDER SOURCES.csv
set -euo pipefail
export LC_ALL=C
folder=$1 sources=$2
rows=$(mktemp)
trap 'rm -f "$rows"' EXIT
# A test that ran twice appended twice: each row counts once.
cat "$folder"/*.csv | sort -u > "$rows"
awk -v sources="$sources" '
function fields(line, out,   n, i, c, quoted, cell) {
  n = 0; cell = ""; quoted = 0
  for (i = 1; i <= length(line); i++) {
    c = substr(line, i, 1)
    if (quoted) { if (c == "\"") { if (substr(line, i + 1, 1) == "\"") { cell = cell c; i++ } else quoted = 0 } else cell = cell c }
    else if (c == "\"") quoted = 1
    else if (c == ",") { out[++n] = cell; cell = "" }
    else cell = cell c
  }
  out[++n] = cell
  return n
}
BEGIN {
  while ((getline line < sources) > 0) { split("", f); fields(line, f); citation[f[1]] = f[2] }
  print "# What was checked against published numbers"
  print ""
  print "Generated from the test run; `hidewright prove` prints it. Expected is the printed value, got is what the program computes,"
  print "the tolerance is half a unit of the last printed digit or the stated uncertainty of the source, plus a named model error."
}
{
  split("", f); fields($0, f)
  if (f[1] != suite) { suite = f[1]; print ""; print "## " suite; last = "" }
  key = f[3] "|" f[4] "|" f[8]
  if (key != last) { last = key; print ""; print citation[f[3]] "; " f[4] ". Tolerance: " f[8] "."; print ""; print "| claim | expected | got | tolerance | result |"; print "|---|---|---|---|---|" }
  print "| " f[2] " | " f[5] " | " f[6] " | " f[7] " | " f[9] " |"
  total++
  if (f[9] == "known deviation") { miss = f[6] - f[5]; if (miss < 0) miss = -miss; known[++n] = "| " f[1] " | " f[2] " | " f[5] " | " f[6] " | " sprintf("%.2g", miss) " | " f[7] " |" }
  else if (f[9] == "met") met++
}
END {
  print ""; print "## Known deviations"; print ""
  print "Printed rows that the model misses, kept in the list with the size of the miss. A row that is met again fails its test."
  print ""; print "| suite | claim | expected | got | miss | tolerance |"; print "|---|---|---|---|---|---|"
  for (i = 1; i <= n; i++) print known[i]
  print ""; print "Rows: " total ", met: " met + 0 ", known deviations: " n + 0 "."
}' "$rows"
