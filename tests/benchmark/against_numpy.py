#!/usr/bin/env python3
"""Times draws and sweeps of lakebound_benchmark beside NumPy, by turns in one run, best of each.

usage: against_numpy.py build/bin/lakebound_benchmark
Needs NumPy and SciPy of the archive. Other work on the machine spoils both columns alike, not the ratio.
"""
import json
import subprocess
import sys
import time

import numpy as np
from scipy.special import ndtr

N = 1_000_000


def film(x):
    m = x[0] * x[1]
    e = np.minimum(1.0, x[9])
    pigment = m / x[5]
    wanted = m * x[2] * x[4] / (x[3] * e)
    binder = x[6] * x[7] / x[8]
    pvc = pigment / (pigment + binder)
    cpvc = pigment / (pigment + wanted)
    return binder / wanted, pvc, cpvc, pvc / cpvc


MEDIAN = (.010, 1, .6878, 930, 1, 1880, .0365, .3685, 1398, .97)
SPREAD = (3e-5, .03, .30, 3, .10, .106, 3e-5, .01, .02, .02)
LOGNORMAL = (0, 1, 1, 0, 1, 1, 0, 0, 1, 0)


def inputs(generator, n):
    z = generator.standard_normal((10, n))
    return [m * np.exp(s * v) if log else m + s * v for m, s, log, v in zip(MEDIAN, SPREAD, LOGNORMAL, z)]


def draws(block, count=N):
    generator = np.random.default_rng(1)
    under, left, total = 0, count, np.zeros((4, 2))
    while left:
        n = min(block, left)
        outputs = film(inputs(generator, n))
        for t, y in zip(total, outputs):
            t += y.sum(), (y * y).sum()
        under += np.count_nonzero(outputs[0] < 1)
        left -= n
    return under / count


def medium():
    a = np.linspace(0.5, 10, N)
    k = a * (.264 / .74)
    c = 1 / (1 + .74 * 1.88)
    pvc = 1 / (1 + k * (1 / c - 1))
    return a, k, pvc, np.full(N, c), pvc / c, ndtr(np.log(k) / -.155)


def extender():
    x = np.linspace(0, 1, N)
    q = .74 * (1 - x) + .19 * x
    v = (1 - x) / 1.88 + x / 2.70
    k = 1 / q
    c = v / (v + q)
    pvc = v / (v + 1)
    return x, k, pvc, c, pvc / c, ndtr(np.log(k) / -.155)


def counter(binary, name, what):
    text = subprocess.run([binary, f"--benchmark_filter=^{name}$", "--benchmark_format=json", "--benchmark_min_time=0.3"],
                          capture_output=True, text=True, check=True).stdout
    return json.loads(text)["benchmarks"][0][what]


def ours(binary, name):
    return counter(binary, name, "real_time")


def main():
    binary = sys.argv[1]
    rows = [
        ("1e6 draws, one thread", "draws_of_a_watercolour/threads:1/real_time", lambda: draws(8192), 3),
        ("1e6 draws, two threads", "draws_of_a_watercolour/threads:2/real_time", lambda: draws(8192), 6),
        # sqrt(p (1-p)/n) = 0.1 point at p near 0.2 takes 160 000 draws.
        ("chance to 0.1 point", "turned_sobol_of_a_watercolour", lambda: draws(8192, 160_000), 50),
        ("chance in closed form", "closed_form_of_a_watercolour", lambda: draws(8192, 160_000), 50),
        ("1e6 sweep over medium", "sweep_of_a_million_media", medium, 4),
        ("1e6 sweep over extender", "sweep_of_a_million_extenders", extender, 4),
    ]
    print(f"{'':26}{'NumPy, ms':>10}{'ours, ms':>10}{'ratio':>8}{'asked':>7}")
    for label, name, numpy_version, asked in rows:
        theirs, mine = [], []
        for _ in range(5):  # by turns
            start = time.perf_counter()
            numpy_version()
            theirs.append((time.perf_counter() - start) * 1e3)
            mine.append(ours(binary, name))
        print(f"{label:26}{min(theirs):10.1f}{min(mine):10.4f}{min(theirs) / min(mine):8.1f}{asked:7}")
    turned, error = (counter(binary, "turned_sobol_of_a_watercolour", what) for what in ("chance_percent", "standard_error_points"))
    closed = counter(binary, "closed_form_of_a_watercolour", "chance_percent")
    print(f"failure chance: {100 * draws(8192, 10 * N):.2f} % by NumPy in 1e7 draws (standard error 0.01), "
          f"{turned:.2f} +- {error:.2f} % by turned Sobol points, {closed:.2f} % in closed form")


if __name__ == "__main__":
    main()
