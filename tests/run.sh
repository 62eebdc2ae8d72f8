#!/bin/sh
# From a fresh checkout to every test passed. With --each-source-alone nothing is run: every source and every
# public header is compiled by itself, so that a forgotten #include shows. With --other-library nothing is run either:
# the libraries are compiled by clang++ with libc++; skipped aloud where those are not installed.
set -eu
top=$(cd "$(dirname "$0")/.." && pwd)
. "$top/apps/set-up.sh"

folder=$top/build-tests
case "${1-}" in
"") ;;
--other-library)
    folder=$folder-libc++
    if ! printf '#include <version>\nint main() {}\n' | clang++ -std=c++20 -stdlib=libc++ -x c++ - -o /dev/null 2>/dev/null; then
        say "Skipped: clang++ with libc++ is not installed (packages clang libc++-dev libc++abi-dev)"
        exit 0
    fi
    # Not optimised: whether it compiles is the question. fmt and yaml-cpp are read, not linked. Warnings are not errors:
    # with the sources of a room together, clang warns where a local name is that of another source.
    configure_project "$folder" $together -DLAKEBOUND_BUILD_TESTS=OFF -DLAKEBOUND_BUILD_APPS=OFF \
        -DCMAKE_CXX_COMPILER=clang++ -DCMAKE_CXX_FLAGS=-stdlib=libc++ -DCMAKE_BUILD_TYPE=Debug
    build_project "$folder" lakebound_core lakebound_shelf lakebound_page lakebound_report
    exit 0
    ;;
--each-source-alone) folder=$folder-alone together=-DCMAKE_UNITY_BUILD=OFF ;;
*)
    printf '%s\n' "tests/run.sh takes nothing, --each-source-alone or --other-library" >&2
    exit 2
    ;;
esac

# shellcheck disable=SC2086  # one word per package
install_packages $build_packages $test_packages
# Warnings are errors where the environment says LAKEBOUND_DEVELOPER=ON, as continuous integration does: a newer compiler
# than ours may warn of more.
configure_project "$folder" $together -DLAKEBOUND_BUILD_TESTS=ON "-DLAKEBOUND_DEVELOPER=${LAKEBOUND_DEVELOPER:-OFF}"
build_project "$folder" all

case "$folder" in *-alone) exit 0 ;; esac
say "Testing"
ctest --test-dir "$folder" -j2 --output-on-failure --no-tests=error
