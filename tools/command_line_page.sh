#!/usr/bin/env bash
# Writes docs/reference/command-line.md from the program's own help: tools/command_line_page.sh PROGRAM > docs/reference/command-line.md
set -euo pipefail
program=$1
cat <<'TEXT'
# Command line

<!-- Made by tools/command_line_page.sh from the program's own help. -->

Every verb has the same name here, over HTTP and on the page. Text for people comes first the answer, then why, then all
of it with units, bands and sources; `--json` gives the same to programs. A refusal goes to standard error and names the
field and the remedy; with `--json` it is a problem body (RFC 9457) on standard output.

Exit codes: 0 answered · 2 the request or the command cannot be read · 3 nothing under that name · 4 a value outside what
the model covers · 5 a conflict, such as records of another folder · 6 the computation did not settle · 7 a part cannot be
reached, such as records that another program has open · 70 a fault of the program.

Records lie in `$XDG_DATA_HOME/hidewright`, else `~/.local/share/hidewright`, else where `--data` says. `judge` and
`analyse` need none when liquid and leather are written out in the request; ids are then those of the demo workshop.
While `serve` runs, the other verbs may read the same records but not change them.
TEXT
verbs() { "$program" --help | sed -n '/^Subcommands:/,/^$/p' | sed -n 's/^  \([a-z]*\) .*/\1/p'; }
for verb in $(verbs); do
  printf '\n## %s\n\n```text\n' "$verb"
  "$program" "$verb" --help | sed 's/ *$//'
  printf '```\n'
done
