#!/usr/bin/env bash
# Where packages are missing and the user may not install them, the run scripts print the one line
# that installs them and stop with exit code 1; where nothing is missing they go on.
set -euo pipefail
source_tree=$1
root=$(mktemp -d)
trap 'rm -rf "$root"' EXIT
mkdir -p "$root/.ci" "$root/bin"
setup_log="$root/setup.log"
. "$source_tree/.ci/setup.sh" # reads its packages from "$root", which is ours here
printf '# a comment\nrun libc6\ntest no-such-package-of-ours\n' >"$root/.ci/packages"

fail() { echo "$1"; exit 1; }
[ "$(missing_packages run)" = "" ] || fail "libc6 is called missing"
[ "$(missing_packages run test)" = no-such-package-of-ours ] || fail "the missing package was not found"

printf 'test no-such-package-of-ours unless sh\ntest no-such-tool-of-ours unless no-such-command-of-ours\n' >"$root/.ci/packages"
[ "$(missing_packages test)" = no-such-tool-of-ours ] || fail "'unless' is not heeded: $(missing_packages test)"
printf '# a comment\nrun libc6\ntest no-such-package-of-ours\n' >"$root/.ci/packages"

# a user who is not root and has no sudo
printf '#!/bin/sh\nexit 1\n' >"$root/bin/sudo"
printf '#!/bin/sh\necho 1000\n' >"$root/bin/id"
chmod +x "$root/bin/sudo" "$root/bin/id"
code=0
output=$(PATH="$root/bin:$PATH" && set_up run test 2>&1) || code=$?
[ "$code" -eq 1 ] || fail "exit code $code instead of 1"
grep -qx 'sudo apt-get install --no-install-recommends no-such-package-of-ours' <<<"$output" ||
  fail "the one line is missing: $output"
output=$(PATH="$root/bin:$PATH" && set_up run 2>&1) || fail "stopped although nothing is missing: $output"
