#!/usr/bin/env python3
"""Prints grinding cases solved by SciPy's matrix exponential, for tests/particle/breakage_test.cpp.

Needs NumPy and SciPy of the archive. `population_balance.py > ../particle/population_balance_cases.inc`
"""
import numpy as np
from scipy.linalg import expm


def generator(sizes, a, alpha, phi, gamma, beta):
    x = np.array(sizes, float)
    n = len(x)
    s = a * (x / x[0]) ** alpha
    s[-1] = 0.0
    A = np.diag(-s)
    cumulative = lambda r: phi * r**gamma + (1 - phi) * r**beta
    for j in range(n - 1):
        for i in range(j + 1, n):
            upper = cumulative(x[i] / x[j + 1])
            lower = cumulative(x[i + 1] / x[j + 1]) if i + 1 < n else 0.0
            A[i, j] = s[j] * (upper - lower)
    return A


cases = [
    # sizes um, a per min, alpha, phi, gamma, beta, minutes
    ([250, 150, 106, 75, 45, 25], 0.10, 0.8, 1.0, 0.9, 5.8, 15),
    ([250, 150, 106, 75, 45, 25], 0.10, 0.8, 1.0, 0.9, 5.8, 30),
    ([250, 150, 106, 75, 45, 25], 0.10, 0.8, 1.0, 0.9, 5.8, 60),
    ([500, 250, 125, 63], 0.2, 0.0, 1.0, 1.0, 5.8, 10),  # equal rates: Reid's solution divides by zero
    ([500, 250, 125, 63], 0.2, 1e-9, 0.5, 1.25, 5.8, 10),  # nearly equal
    ([1000 * 2 ** (-k / 2) for k in range(12)], 0.5, 0.8, 0.55, 1.25, 5.8, 20),
    ([1000 * 2 ** (-k / 2) for k in range(12)], 0.5, 3.0, 0.55, 1.25, 5.8, 500),  # stiff
    ([1000 * 2 ** (-k / 2) for k in range(12)], 5.0, 4.5, 1.0, 0.7, 5.8, 20000),  # very stiff
    ([1000, 10], 1e-6, 1.0, 1.0, 1.0, 5.8, 1e-3),  # next to nothing happens
]
print("// Printed by tests/reference/population_balance.py (SciPy expm). Do not edit.")
for sizes, a, alpha, phi, gamma, beta, t in cases:
    n = len(sizes)
    feed = np.array([n - i for i in range(n)], float)
    feed /= feed.sum()
    w = expm(generator(sizes, a, alpha, phi, gamma, beta) * t) @ feed
    row = ", ".join(repr(float(v)) for v in sizes)
    out = ", ".join(repr(float(v)) for v in w)
    print(f"{{{{{row}}}, {a}, {alpha}, {phi}, {gamma}, {beta}, {t}, {{{out}}}}},")
