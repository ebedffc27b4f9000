#!/usr/bin/env bash
# Configures a preset once; again after the tree has moved or a configuration broke off.
#   tools/configure.sh PRESET
set -euo pipefail
cd "$(dirname "$0")/.."
build=build/$1
home=$(sed -n 's/^CMAKE_HOME_DIRECTORY:INTERNAL=//p' "$build/CMakeCache.txt" 2>/dev/null || true)
[ -z "$home" ] || [ "$home" -ef . ] || rm -rf "$build"
[ -f "$build/build.ninja" ] && [ -f "$build/CMakeCache.txt" ] && exit 0
echo "Configuring $1 …"
cmake --preset "$1" --log-level=NOTICE </dev/null
