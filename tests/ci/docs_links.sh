#!/usr/bin/env bash
# Every relative link in README.md, DEVELOPERS.md and docs leads to a file that is there.
set -euo pipefail
cd "$1"
links=0 broken=0
while IFS=: read -r page link; do
  links=$((links + 1))
  if [ ! -e "$(dirname "$page")/${link%%#*}" ]; then
    echo "$page: '$link' is not there"
    broken=$((broken + 1))
  fi
done < <(find README.md DEVELOPERS.md docs sample-house -name '*.md' -exec grep -HoE '\]\([^):]+\)' {} + | sed -E 's/\]\(([^)]+)\)/\1/')
[ "$links" -gt 10 ] || { echo "only $links links were found; the check does not read the pages"; exit 1; }
[ "$broken" -eq 0 ]
