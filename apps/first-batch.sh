#!/bin/sh
# From a fresh checkout to the weigh sheets of the demo jar: half pans, an oil tube, egg tempera.
set -eu
top=$(cd "$(dirname "$0")/.." && pwd)
. "$top/apps/set-up.sh"

# shellcheck disable=SC2086  # one word per package
install_packages $build_packages
configure_project "$top/build" $together -DLAKEBOUND_BUILD_TESTS=OFF
build_project "$top/build" lakebound-batch # what the sheets need, first

studio="$top/formulations/studios/reedmere"
for recipe in lake-watercolour-half-pans lake-oil-tube lake-egg-tempera; do
    printf '\n'
    say "lakebound-batch $recipe, from the demo jar of weld lake"
    "$top/build/bin/lakebound-batch" "$recipe" --jar "$studio/jars/weld.yaml" --bench "$studio/bench.yaml" \
        --pigment "6 g" || [ $? -eq 1 ]
done

printf '\n'
say "The other commands"
build_project "$top/build" all
