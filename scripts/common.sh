# What scripts/demo and scripts/test share: Debian's packages, configuring and building.
# Read by them with "."; works in any POSIX shell, from any folder.

# The one list of what is needed beyond a fresh Debian 12.
#   to build:  compiler, CMake, the office's SDK, the libraries that are packed statically
#   to test:   GoogleTest, RapidCheck, Google Benchmark, clang-format
#   to run:    Calc, and the fonts of the workbook's printed pages
# python3 reads the catalogue at build time; poppler-utils turns the PDF into pictures to look at.
PACKAGES="
  g++ make cmake python3 clang-format
  libreoffice-dev libboost-math-dev
  libgtest-dev librapidcheck-dev libbenchmark-dev
  libreoffice-calc fonts-liberation fonts-dejavu-core
  poppler-utils
"

# Without a locale LibreOffice opens no file whose name is not plain ASCII.
[ -n "${LC_ALL:-}${LC_CTYPE:-}${LANG:-}" ] || export LANG=C.UTF-8

say() { printf '\n== %s\n' "$*"; }
fail() {
    printf '\nfailed: %s\n' "$*" >&2
    exit 1
}

ROOT=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd) || exit 1
BUILD="$ROOT/build"
cd "$ROOT" || exit 1

# Debian's own Python, also where another one comes first in PATH.
PYTHON=/usr/bin/python3

is_installed() {
    [ "$(dpkg-query -W -f='${db:Status-Status}' "$1" 2>/dev/null)" = installed ]
}

# Installs what is missing from Debian's packages, and nothing else.
install_packages() {
    command -v dpkg-query >/dev/null 2>&1 || {
        say "This is no Debian: the packages have to be there already"
        return 0
    }
    missing=
    for package in $PACKAGES; do
        is_installed "$package" || missing="$missing $package"
    done
    if [ -z "$missing" ]; then
        say "All Debian packages are there"
        return 0
    fi
    say "Installing Debian packages:$missing"
    as_root=
    if [ "$(id -u)" -ne 0 ]; then
        command -v sudo >/dev/null 2>&1 ||
            fail "these packages have to be installed by root: apt-get install$missing"
        as_root="sudo"
    fi
    $as_root apt-get update || fail "apt-get update"
    # shellcheck disable=SC2086 # a list of words
    $as_root env DEBIAN_FRONTEND=noninteractive \
        apt-get install --yes --no-install-recommends $missing || fail "apt-get install$missing"
}

# Where this machine has its own packages from: the first source that is no suite of updates.
package_mirror() {
    apt-get indextargets --format '$(RELEASE) $(REPO_URI)' 'Created-By: Packages' |
        awk '$1 !~ /-/ { print $2; exit }'
}

# build [TARGET...]: configures once, with what is in CONFIGURE too, then builds; the percentages are
# make's.
build() {
    say "Configuring (Release) in build/"
    cmake -S "$ROOT" -B "$BUILD" -DCMAKE_BUILD_TYPE=Release -DPython3_EXECUTABLE="$PYTHON" \
        ${CONFIGURE:-} || fail "configuring"
    jobs=$(nproc 2>/dev/null || echo 1)
    say "Building with $jobs jobs"
    cmake --build "$BUILD" --parallel "$jobs" ${1:+--target "$@"} || fail "building"
}
