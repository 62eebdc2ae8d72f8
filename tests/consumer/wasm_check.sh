#!/bin/sh
# wasm_check.sh TOP WORK: core and shelf compile with the archive's emscripten as they are, and the first program prints
# under node what its source says it prints. Skipped aloud where em++ or node is not installed.
set -eu
top=$1 work=$2
if ! command -v em++ >/dev/null 2>&1 || ! command -v node >/dev/null 2>&1; then
    echo "skipped: em++ and node are not installed (packages emscripten nodejs)"
    exit 0
fi
mkdir -p "$work/include" "$work/made/lakebound"
# Only what is wanted of /usr/include, which is another system's.
for each in boost yaml-cpp; do ln -sfn "/usr/include/$each" "$work/include/$each"; done
flags="-std=c++20 -O1 -fexceptions -I$top/include -isystem $work/include -isystem /usr/include/eigen3"
objects=""
for room in quantity estimate material bath particle paint record; do
    # A room in one source, as CMAKE_UNITY_BUILD compiles it, but for those that have options of their own there.
    for source in "$top/lib/$room"/*.cpp; do
        case "$source" in
        */chance_kernel.cpp | */sweep.cpp | */monte_carlo.cpp | */random.cpp)
            alone=$(basename "$source" .cpp)
            # shellcheck disable=SC2086  # one word per flag
            em++ $flags -ffp-contract=off -c "$source" -o "$work/$alone.o"
            objects="$objects $work/$alone.o"
            ;;
        *) printf '#include "%s"\n' "$source" ;;
        esac
    done >"$work/$room.cpp"
    # shellcheck disable=SC2086
    em++ $flags -c "$work/$room.cpp" -o "$work/$room.o"
    objects="$objects $work/$room.o"
done
for source in "$top"/lib/shelf/*.cpp; do printf '#include "%s"\n' "$source"; done >"$work/shelf.cpp"
# shellcheck disable=SC2086
em++ $flags -fsyntax-only "$work/shelf.cpp"
# shellcheck disable=SC2086
em++ $flags "$top/docs/examples/size_a_batch.cpp" $objects -sSINGLE_FILE=1 -o "$work/size_a_batch.js"
printed=$(node "$work/size_a_batch.js")
expected=$(sed -n '/^\/\/ Prints:/,/^#include/s/^\/\/   //p' "$top/docs/examples/size_a_batch.cpp")
[ "$printed" = "$expected" ] || { printf 'under node it prints\n%s\nnot\n%s\n' "$printed" "$expected"; exit 1; }
echo "$printed"
