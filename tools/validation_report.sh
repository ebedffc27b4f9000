#!/usr/bin/env bash
# The rows that the reference tests left behind, as docs/reference/validation.md.
#   validation_report.sh FOLDER SOURCES.csv
# Suites and tests in alphabetical order, rows in the order of their test, so that the same run gives the same text.
set -euo pipefail
export LC_ALL=C
folder=$1 sources=$2
cat "$folder"/*.csv | awk -v sources="$sources" '
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
function text(cell) { gsub(/\|/, "\\|", cell); return cell }
BEGIN {
  while ((getline line < sources) > 0) { split("", f); fields(line, f); citation[f[1]] = f[2] }
}
{
  split("", f)
  if (fields($0, f) != 9) { print "a row that does not have 9 fields: " $0 > "/dev/stderr"; failed = 1; exit 1 }
  suite = f[1]
  if (!(f[3] in citation)) { print suite ": unknown source key " f[3] > "/dev/stderr"; failed = 1; exit 1 }
  if (!(suite in rows)) { suites[++suite_count] = suite; rows[suite] = met[suite] = known[suite] = missed[suite] = 0 }
  rows[suite]++; total++
  if (f[9] == "met") { met[suite]++; all_met++ }
  else if (f[9] == "known deviation") {
    known[suite]++; all_known++
    miss = f[6] - f[5]; if (miss < 0) miss = -miss
    deviations = deviations "| " suite " | " text(f[2]) " | " f[5] " | " f[6] " | " sprintf("%.2g", miss) " | " f[7] " |\n"
  } else { missed[suite]++; all_missed++ }
  # One table for each source, locator and reason of a suite, in the order in which they first appear.
  key = suite SUBSEP f[3] SUBSEP f[4] SUBSEP f[8]
  if (!(key in table)) {
    tables[suite, ++table_count[suite]] = key
    heading[key] = text(citation[f[3]]) "; " text(f[4]) ". Tolerance: " text(f[8]) "."
  }
  table[key] = table[key] "| " text(f[2]) " | " f[5] " | " f[6] " | " f[7] " | " f[9] " |\n"
}
END {
  if (failed) exit 1
  print "# What was checked against published numbers\n"
  print "Generated from the test run; `hidewright prove` prints it. Expected is the printed value, got is what the program computes."
  print "The tolerance is half a unit of the last printed digit or the stated uncertainty of the source, plus a named model error."
  print "\n" total " rows: " all_met + 0 " met, " all_known + 0 " known deviations, " all_missed + 0 " missed.\n"
  print "| suite | rows | met | known deviations | missed |\n|---|---|---|---|---|"
  for (i = 1; i <= suite_count; i++) { s = suites[i]; print "| " s " | " rows[s] " | " met[s] " | " known[s] " | " missed[s] " |" }
  print "\n## Known deviations\n"
  print "Printed rows that the model misses, kept in the list with the size of the miss. A row that is met again fails its test.\n"
  print "| suite | claim | expected | got | miss | tolerance |\n|---|---|---|---|---|---|"
  printf "%s", deviations
  for (i = 1; i <= suite_count; i++) {
    s = suites[i]
    print "\n## " s
    for (k = 1; k <= table_count[s]; k++)
      printf "\n%s\n\n| claim | expected | got | tolerance | result |\n|---|---|---|---|---|\n%s", heading[tables[s, k]], table[tables[s, k]]
  }
}'
