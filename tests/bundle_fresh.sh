#!/usr/bin/env bash
# The committed web bundle must be what its sources build to; types and unit tests pass first.
set -euo pipefail
cd "$1"
npm run --silent check
npm test --silent
out=$(mktemp -d)
trap 'rm -rf "$out"' EXIT
npx --no-install vite build --outDir "$out" --emptyOutDir --logLevel error
diff -r dist "$out"
