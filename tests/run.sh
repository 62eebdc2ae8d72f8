#!/bin/sh
# From a fresh checkout to every test passed.
set -eu
top=$(cd "$(dirname "$0")/.." && pwd)
. "$top/apps/set-up.sh"

# shellcheck disable=SC2086  # one word per package
install_packages $build_packages $test_packages
build_project "$top/build-tests" -DLAKEBOUND_BUILD_TESTS=ON -DLAKEBOUND_DEVELOPER=ON

say "Testing"
ctest --test-dir "$top/build-tests" -j2 --output-on-failure --no-tests=error
