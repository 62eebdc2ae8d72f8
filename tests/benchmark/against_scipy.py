#!/usr/bin/env python3
"""Times grinds and size fits of lakebound_benchmark beside SciPy, by turns in one run, best of each.

usage: against_scipy.py build/bin/lakebound_benchmark
Needs NumPy and SciPy of the archive. Other work on the machine spoils both columns alike, not the ratio.
Both sides of a grind have their matrix ready. Our fit includes the straight line it starts from, as the first
of SciPy's does; the others are given that start, and one of them the derivatives, for nothing.
Ends with status 1 when the answers differ.
"""
import json
import math
import subprocess
import sys
import timeit

import numpy as np
from scipy.linalg import expm
from scipy.optimize import curve_fit, least_squares

TURNS = 5

# The mortar of particle_benchmark.cpp.
SIZES = np.array([850, 600, 425, 300, 212, 150, 106, 75, 53, 45, 38, 32.])
FEED = np.array([.20, .18, .15, .12, .09, .07, .06, .05, .03, .02, .02, .01])
RATE, ALPHA, GAMMA, LIMIT = 0.15, 0.8, 0.9, 7

# brezani-2011: sizes in mm, percent retained.
LOG_MM = np.log([.08, .50, 1.25, 2, 4, 6.3, 8, 12.5, 16, 40])
PASSING = 1 - np.array([95.61, 87.71, 82.45, 79.78, 73.28, 66.98, 63.21, 55.40, 49.91, 23.95]) / 100


def generator():
    n = len(SIZES)
    selection = RATE * (SIZES / SIZES[0]) ** ALPHA
    selection[-1] = 0
    a = -np.diag(selection)
    for j in range(n - 1):
        finer = [(SIZES[i] / SIZES[j + 1]) ** GAMMA for i in range(j + 1, n)] + [0]
        for i in range(j + 1, n):
            a[i, j] = (finer[i - j - 1] - finer[i - j]) * selection[j]
    return a


def passing(x, log_size, log_slope):
    return -np.expm1(-np.exp(np.exp(log_slope) * (x - log_size)))


def slopes(x, log_size, log_slope):
    n = np.exp(log_slope)
    z = np.exp(n * (x - log_size))
    d = np.exp(-z) * z * n
    return np.column_stack((-d, d * (x - log_size)))


def straight_line():
    slope, offset = np.polyfit(LOG_MM, np.log(-np.log1p(-PASSING)), 1)
    return np.array([-offset / slope, np.log(slope)])


def seconds_each(call):
    timer = timeit.Timer(call)
    count, taken = timer.autorange()
    return taken / count


def ours(binary, name):
    text = subprocess.run([binary, f"--benchmark_filter=^{name}$", "--benchmark_format=json", "--benchmark_min_time=0.2"],
                          capture_output=True, text=True, check=True).stdout
    found = json.loads(text)["benchmarks"][0]
    return found["real_time"] * {"ns": 1e-9, "us": 1e-6, "ms": 1e-3, "s": 1}[found["time_unit"]], found


def main():
    binary = sys.argv[1]
    a, start = generator(), straight_line()

    def ground(minutes):
        return expm(a * minutes) @ FEED

    def by_straight_line_and_curve_fit():
        return curve_fit(passing, LOG_MM, PASSING, straight_line())[0]

    def by_curve_fit():
        return curve_fit(passing, LOG_MM, PASSING, start)[0]

    def by_curve_fit_with_jacobian():
        return curve_fit(passing, LOG_MM, PASSING, start, jac=slopes)[0]

    def by_least_squares():
        return least_squares(lambda p: passing(LOG_MM, *p) - PASSING, start, method="lm").x

    def residue(minutes):
        return lambda: {"residue": ground(minutes)[:LIMIT].sum()}

    def fitted(call):
        def answer():
            log_size, log_slope = call()
            return {"size_mm": math.exp(log_size), "slope": math.exp(log_slope)}
        return answer

    rows = [(f"grind of 12 classes, {m} min", f"grind_of_twelve_classes/minutes:{m}",
             lambda m=m: ground(m), residue(m), 1e-9) for m in (10, 60, 600)]
    rows.append(("the same, both with a new matrix, 10 min", "grind_of_a_new_mortar/minutes:10", lambda: expm(generator() * 10) @ FEED, None, 0))
    # Both stop where the sum of squares no longer falls: parameters are good to about its square root.
    for label, call in (("straight line, then curve_fit", by_straight_line_and_curve_fit),
                        ("curve_fit, start given", by_curve_fit), ("curve_fit, start and jac given", by_curve_fit_with_jacobian),
                        ("least_squares, start given", by_least_squares)):
        rows.append((f"Rosin-Rammler, {label}", "rosin_rammler_fit", call, fitted(call), 1e-5))

    agree = True
    print(f"{'':48}{'SciPy, us':>11}{'ours, us':>10}{'ratio':>8}{'asked':>7}{'apart':>9}")
    for label, name, call, answer, allowed in rows:
        theirs, mine = [], []
        for _ in range(TURNS):  # by turns
            theirs.append(seconds_each(call))
            taken, found = ours(binary, name)
            mine.append(taken)
        apart = ""
        if answer:
            difference = max(abs(found[key] / value - 1) for key, value in answer().items())
            agree = agree and difference <= allowed
            apart = f"{difference:.0e}"
        print(f"{label:48}{min(theirs) * 1e6:11.1f}{min(mine) * 1e6:10.2f}{min(theirs) / min(mine):8.1f}{15:7}{apart:>9}")

    print(f"{'':48}{'ours, s':>21}{'asked':>15}")
    for label, name in (("breakage fit, 500 resamples", "breakage_fit_with_resamples/resamples:500/real_time"),
                        ("10 000 cycles, load exponent 0", "search_of_ten_thousand_cycles/load_exponent_tenths:0/real_time"),
                        ("10 000 cycles, load exponent 0.5", "search_of_ten_thousand_cycles/load_exponent_tenths:5/real_time")):
        print(f"{label:48}{min(ours(binary, name)[0] for _ in range(TURNS)):21.4f}{'below 1':>15}")
    if not agree:
        sys.exit("against_scipy.py: the answers differ from SciPy's")


if __name__ == "__main__":
    main()
