#!/bin/sh
# Counts the instructions of the k/PVC/CPVC kernel on quantities and on raw doubles with callgrind,
# which gives the same count whatever else the machine does. Needs valgrind and g++ (or $CXX).
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

count() {
    valgrind --tool=callgrind --callgrind-out-file=/dev/null "$1" "$2" 2>&1 | awk '/Collected/ {print $4}'
}

for level in -O2 -O3; do
    ${CXX:-g++} -std=c++20 $level -DNDEBUG -I"$top/include" "$top/tests/benchmark/kernel_instructions.cpp" \
        "$top/lib/quantity/error.cpp" "$top/lib/quantity/portable.cpp" -o "$work/kernel"
    none=$(count "$work/kernel" none)
    quantities=$(count "$work/kernel" quantities)
    doubles=$(count "$work/kernel" doubles)
    awk -v l="$level" -v n="$none" -v q="$quantities" -v d="$doubles" 'BEGIN {
        printf "%s  quantities %.2f  doubles %.2f instructions per formula, ratio %.3f\n",
               l, (q - n) / 1e6, (d - n) / 1e6, (q - n) / (d - n) }'
done
