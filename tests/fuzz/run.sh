#!/bin/sh
# Fuzzes the shelf loader with the YAML parser instrumented too.
#
#   sh tests/fuzz/run.sh [SECONDS] [FOLDER]     default: 600 seconds, build-fuzz beside the sources
#
# Needs clang (package clang) and the source package of yaml-cpp; without the source package it goes on
# with the installed parser, in which only our own code is instrumented, and says so. New inputs are kept in
# FOLDER/corpus, findings in FOLDER/findings. Uses one core at the lowest priority.
set -eu
seconds=${1:-600}
top=$(cd "$(dirname "$0")/../.." && pwd)
folder=${2:-$top/build-fuzz}
mkdir -p "$folder/corpus" "$folder/findings"
folder=$(cd "$folder" && pwd)
say() { printf '==> %s\n' "$*"; }

command -v clang++ >/dev/null 2>&1 || { say "clang++ is needed: apt-get install clang"; exit 2; }

# apt-get source with lists of its own, so that the system's configuration is left as it is.
fetch_parser() {
    private="$folder/apt"
    mkdir -p "$private/lists/partial" "$private/sources.d"
    for file in /etc/apt/sources.list /etc/apt/sources.list.d/debian.sources; do
        [ -s "$file" ] || continue
        sed -e 's/^Types:.*/Types: deb-src/' -e 's/^deb /deb-src /' "$file" >"$private/sources.d/$(basename "$file")"
    done
    options="-o Dir::Etc::SourceList=/dev/null -o Dir::Etc::SourceParts=$private/sources.d
             -o Dir::State::Lists=$private/lists -o APT::Sandbox::User=$(id -un)
             -o Dir::Cache::srcpkgcache= -o Dir::Cache::pkgcache="
    # shellcheck disable=SC2086  # options are words
    apt-get $options update -qq && (cd "$folder" && apt-get $options source -qq yaml-cpp)
}

parser=$(find "$folder" -maxdepth 1 -type d -name 'yaml-cpp-*' | head -n 1)
if [ -z "$parser" ]; then
    say "Fetching the source package of yaml-cpp"
    if fetch_parser >"$folder/fetch.log" 2>&1; then
        parser=$(find "$folder" -maxdepth 1 -type d -name 'yaml-cpp-*' | head -n 1)
    else
        say "The source package could not be fetched ($folder/fetch.log); only our own code is instrumented"
    fi
fi

say "Building in $folder/build"
cmake -S "$top" -B "$folder/build" -G Ninja -DCMAKE_BUILD_TYPE=RelWithDebInfo \
    -DCMAKE_CXX_COMPILER=clang++ -DLAKEBOUND_BUILD_TESTS=ON \
    -DCMAKE_CXX_FLAGS="-fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=undefined" \
    -DLAKEBOUND_BUILD_FUZZER=ON -DLAKEBOUND_BUILD_APPS=OFF -DLAKEBOUND_YAML_CPP_SOURCE="$parser" >"$folder/build.log" 2>&1 &&
    nice -n 19 cmake --build "$folder/build" --target shelf_fuzz >>"$folder/build.log" 2>&1 ||
    { tail -n 40 "$folder/build.log" >&2; exit 3; }

say "Fuzzing for $seconds seconds"
cd "$folder/findings"
nice -n 19 "$folder/build/bin/shelf_fuzz" -max_total_time="$seconds" -max_len=4096 -timeout=10 -rss_limit_mb=2048 \
    -dict="$top/tests/fuzz/shelf.dict" -print_final_stats=1 "$folder/corpus" "$top/tests/fuzz/corpus" \
    "$top/tests/errors" "$top/formulations" 2>"$folder/fuzz.log" || { tail -n 60 "$folder/fuzz.log" >&2; exit 1; }
grep -E '^stat::|^Done|cov:' "$folder/fuzz.log" | tail -n 8
