# Shared by sample-house/run, tests/run and .ci/run. Read with `.`; needs `root` set to the
# folder of the source tree.

# Several source trees of one project share compiled objects, where the compiler cache is installed.
export CCACHE_BASEDIR="$root" CCACHE_NOHASHDIR=1

step_number=0
# say_step "what is done now": counts up to $steps.
say_step() {
  step_number=$((step_number + 1))
  printf '[%d/%d] %s\n' "$step_number" "$steps" "$1"
}

# missing_packages GROUP...: names of the packages of these groups that are not installed. A line "test nodejs unless node" asks for
# its package only where there is no such command, of whatever origin.
missing_packages() {
  local group package unless command status
  while read -r group package unless command; do
    case " $* " in *" $group "*) ;; *) continue ;; esac
    [ "$unless" = unless ] && command -v "$command" >/dev/null && continue
    status=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null) || status=
    [ "$status" = installed ] || printf '%s\n' "$package"
  done < <(grep -v '^#' "$root/.ci/packages")
}

# set_up GROUP...: installs what is missing. Without the right to, prints the one line and stops.
set_up() {
  local missing as_root=()
  if ! command -v dpkg-query >/dev/null; then
    echo "This script sets up Debian 12. On another system install what .ci/packages lists, then use cmake." >&2
    exit 1
  fi
  mapfile -t missing < <(missing_packages "$@")
  if [ "${#missing[@]}" -eq 0 ]; then
    echo "      Everything needed is installed."
    return
  fi
  if [ "$(id -u)" -ne 0 ]; then
    if ! sudo -n true 2>/dev/null; then
      echo "Packages are missing and this user may not install them. Run this once, then try again:" >&2
      echo "sudo apt-get install --no-install-recommends ${missing[*]}" >&2
      exit 1
    fi
    as_root=(sudo -n)
  fi
  echo "      Installing ${#missing[@]} packages: ${missing[*]}"
  as_root+=(env DEBIAN_FRONTEND=noninteractive)
  "${as_root[@]}" apt-get -qq update </dev/null ||
    echo "      The package lists could not be refreshed; trying with the old ones." >&2
  if ! "${as_root[@]}" apt-get -qq install -y --no-install-recommends "${missing[@]}" </dev/null >"$setup_log" 2>&1; then
    tail -n 20 "$setup_log" >&2
    echo "The packages could not be installed. What the installer said is above and in $setup_log." >&2
    exit 1
  fi
}

# set_up_browser_tests: what the tests of the page in a browser need, as pinned in tests/browser/package-lock.json. Without a
# network they are skipped.
set_up_browser_tests() {
  [ -f "$root/tests/browser/node_modules/.package-lock.json" ] &&
    [ "$root/tests/browser/node_modules/.package-lock.json" -nt "$root/tests/browser/package-lock.json" ] && return
  if ! (cd "$root/tests/browser" && npm ci --ignore-scripts) </dev/null >"$setup_log" 2>&1; then
    tail -n 5 "$setup_log" >&2
    echo "      The tests of the page in a browser could not be set up; they are skipped." >&2
  fi
}

# build PRESET FOLDER TARGETS... -- CMAKE_OPTIONS...: configures and builds quietly; on failure shows why.
build() {
  local preset=$1 folder=$2 targets=() log
  shift 2
  while [ $# -gt 0 ] && [ "$1" != -- ]; do targets+=(--target "$1"); shift; done
  [ $# -gt 0 ] && shift
  log="$folder/configure.log"
  mkdir -p "$folder"
  if ! (cd "$root" && cmake --preset "$preset" -B "$folder" "$@") >"$log" 2>&1; then
    tail -n 30 "$log" >&2
    echo "Configuring failed; all of it is in $log." >&2
    exit 1
  fi
  NINJA_STATUS='      [%f/%t] ' cmake --build "$folder" "${targets[@]}"
}
