#!/bin/sh
# From a fresh checkout to every test passed. With --each-source-alone nothing is run: every source and every
# public header is compiled by itself, so that a forgotten #include shows.
set -eu
top=$(cd "$(dirname "$0")/.." && pwd)
. "$top/apps/set-up.sh"

folder=$top/build-tests
case "${1-}" in
"") ;;
--each-source-alone) folder=$folder-alone together=-DCMAKE_UNITY_BUILD=OFF ;;
*)
    printf '%s\n' "tests/run.sh takes nothing, or --each-source-alone" >&2
    exit 2
    ;;
esac

# shellcheck disable=SC2086  # one word per package
install_packages $build_packages $test_packages
configure_project "$folder" $together -DLAKEBOUND_BUILD_TESTS=ON -DLAKEBOUND_DEVELOPER=ON
build_project "$folder" all

case "$folder" in *-alone) exit 0 ;; esac
say "Testing"
ctest --test-dir "$folder" -j2 --output-on-failure --no-tests=error
