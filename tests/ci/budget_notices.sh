#!/usr/bin/env bash
# Plants files and functions over budget and sees .ci/budget name them; what is within budget, or has
# its reason, passes.
set -euo pipefail
source_tree=$1
tree=$(mktemp -d)
trap 'rm -rf "$tree"' EXIT
mkdir -p "$tree/src/house" "$tree/db" "$tree/print" "$tree/docs/decisions"
list="$tree/docs/decisions/sizes.txt"
failures=0

# file_of LINES: comment lines around one function
file_of() { printf 'int one(int a) { return a; }\n'; for ((i = 1; i < $1; i++)); do echo '// line'; done; }
# function_of LINES
function_of() { printf 'int two(int a) {\n'; for ((i = 2; i < $1; i++)); do echo '  ++a;'; done; printf '}\n'; }
# expect accepted|refused NAME REASON: runs the check on what was planted as src/house/NAME
expect() {
  printf '%s\n' "$3" >"$list"
  local verdict=accepted output
  output=$("$source_tree/.ci/budget" "$tree") || verdict=refused
  if [ "$verdict" != "$1" ] || { [ "$1" = refused ] && [[ $output != *"src/house/$2"* ]]; }; then
    echo "expected $1 for $2 with the reason '$3', got $verdict: $output"
    failures=$((failures + 1))
  fi
  rm -f "$tree"/src/house/*
}

file_of 150 >"$tree/src/house/a.h";  expect accepted a.h ''
file_of 151 >"$tree/src/house/a.h";  expect refused a.h ''
file_of 151 >"$tree/src/house/a.h";  expect refused a.h 'src/house/a.h:'
file_of 151 >"$tree/src/house/a.h";  expect accepted a.h 'src/house/a.h: the reason'
file_of 300 >"$tree/src/house/a.cc"; expect accepted a.cc ''
file_of 301 >"$tree/src/house/a.cc"; expect refused a.cc ''
file_of 301 >"$tree/src/house/a.cc"; expect accepted a.cc 'src/house/a.cc: the reason'
file_of 501 >"$tree/src/house/a.cc"; expect refused a.cc 'src/house/a.cc: the reason'
function_of 40 >"$tree/src/house/a.cc"; expect accepted a.cc ''
function_of 41 >"$tree/src/house/a.cc"; expect refused a.cc ''
function_of 41 >"$tree/src/house/a.cc"; expect accepted a.cc 'src/house/a.cc two: the reason'
function_of 61 >"$tree/src/house/a.cc"; expect refused a.cc 'src/house/a.cc two: the reason'
function_of 61 >"$tree/src/house/a.cc"; expect accepted a.cc 'src/house/a.cc two: table of words'
echo 'int p(int a, int b, int c, int d, std::map<int, int> e) { return a; }' >"$tree/src/house/a.cc"
expect accepted a.cc ''
echo 'int p(int a, int b, int c, int d, int e, int f) { return a; }' >"$tree/src/house/a.cc"
expect refused a.cc ''

[ "$failures" -eq 0 ]
