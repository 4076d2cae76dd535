#!/usr/bin/env bash
# Plants one crossing at a time in a small tree and sees .ci/arrows name it; what is allowed passes.
set -euo pipefail
source_tree=$1
tree=$(mktemp -d)
trap 'rm -rf "$tree"' EXIT
mkdir -p "$tree"/src/{house,feed,trace,rules,survey,ask,web,cli} "$tree/db" "$tree/print"
failures=0

# plant FILE LINE: a tree whose one file holds this line
plant() {
  find "$tree" -type f -delete
  printf '#include <string>\n' >"$tree/src/house/clean.h"
  printf '// some file\n%s\n' "$2" >"$tree/$1"
}
refused() {
  plant "$1" "$2"
  if output=$("$source_tree/.ci/arrows" "$tree"); then
    echo "not noticed: $2 in $1"; failures=$((failures + 1))
  elif [[ $output != *"$1:2: "* ]]; then
    echo "noticed in the wrong place: $output"; failures=$((failures + 1))
  fi
}
accepted() {
  plant "$1" "$2"
  "$source_tree/.ci/arrows" "$tree" >/dev/null || { echo "refused: $2 in $1"; failures=$((failures + 1)); }
}

refused src/house/a.h '#include "feed/graph.h"'
refused src/feed/a.cc '#include "trace/belief.h"'
refused src/trace/a.cc '#include "ask/names.h"'
refused src/rules/a.cc '#include "trace/belief.h"'
refused src/survey/a.cc '#include "feed/graph.h"'
refused src/ask/a.cc '#include "cli/command.h"'
refused src/ask/a.cc '#include "survey/entry.h"'
refused db/a.cc '#include "print/text.h"'
refused print/a.cc '#include "db/house_file.h"'
refused print/a.cc '#include "cli/command.h"'
refused src/feed/a.cc '#include "graph.h"'
refused src/feed/a.cc '#include <sqlite3.h>'
refused src/ask/a.cc '#include <nlohmann/json.hpp>'
refused src/trace/a.cc '#include <iostream>'
refused src/house/a.h '#include <unistd.h>'
refused src/rules/a.cc '#include <cairo/cairo.h>'
refused db/a.cc '#include <qrencode.h>'
refused print/a.cc '#include <SQLiteCpp/SQLiteCpp.h>'
refused db/a.cc '#include <CLI/CLI.hpp>'
refused print/a.cc '#include <nlohmann/json.hpp>'
refused src/web/a.cc '#include "cli/command.h"'
refused src/cli/a.cc '#include <microhttpd.h>'

accepted src/house/a.h '#include <vector>'
accepted src/feed/a.cc '#include "house/house.h"'
accepted src/ask/a.cc '#include "rules/wording.h"'
accepted src/ask/a.cc '#include <fmt/format.h>'
accepted db/a.cc '#include <SQLiteCpp/SQLiteCpp.h>'
accepted print/a.cc '#include <pango/pangocairo.h>'
accepted src/cli/a.cc '#include "db/house_file.h"'
accepted src/cli/a.cc '#include <nlohmann/json.hpp>'
accepted src/cli/a.cc '#include "version.h"'
accepted src/cli/a.cc '#include "web/server.h"'
accepted src/web/a.cc '#include <microhttpd.h>'

[ "$failures" -eq 0 ]
